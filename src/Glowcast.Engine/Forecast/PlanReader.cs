using System.Text.Json;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What a question needs to find in a plan.</summary>
[Flags]
public enum PlanNeeds
{
    Nothing = 0,
    Lookout = 1,
    Date = 2,
    Gear = 4,

    /// <summary>Light on the span of one day.</summary>
    Light = Lookout | Date,

    /// <summary>The whole job.</summary>
    Forecast = Light | Gear,
}

/// <summary>Reads a plan from JSON; its shape is that of docs/plan.schema.json. All faults are said at once.</summary>
public static class PlanReader
{
    /// <param name="json">UTF-8, to its end.</param>
    /// <param name="soundings">Finds the sounding that a plan names; without it the plan holds the text of the sounding itself.</param>
    /// <param name="weathers">Reads the weather files that a plan names; without it a plan that names some is refused.</param>
    /// <param name="surfaces">Reads the raster of surfaces that a plan names; likewise.</param>
    /// <exception cref="BadInputException">It is not JSON, or something in it is missing or wrong; names every field.</exception>
    public static Plan Read(Stream json, PlanNeeds needs, Func<string, Profile>? soundings = null, Func<IReadOnlyList<string>, WeatherFiles?>? weathers = null,
        Func<string, SurfaceRaster?>? surfaces = null)
    {
        ArgumentNullException.ThrowIfNull(json);
        using var bytes = new MemoryStream();
        json.CopyTo(bytes);
        using var document = PlanText.Parse(bytes.ToArray());
        return Read(document.RootElement, needs, soundings, weathers, surfaces);
    }

    /// <param name="json">Parsed by <see cref="PlanText"/>.</param>
    /// <inheritdoc cref="Read(Stream, PlanNeeds, Func{string, Profile}, Func{IReadOnlyList{string}, WeatherFiles}, Func{string, SurfaceRaster})"/>
    public static Plan Read(JsonElement json, PlanNeeds needs, Func<string, Profile>? soundings = null, Func<IReadOnlyList<string>, WeatherFiles?>? weathers = null,
        Func<string, SurfaceRaster?>? surfaces = null)
    {
        var faults = new Faults();
        if (json.ValueKind != JsonValueKind.Object) throw new BadInputException("plan", "Must be a JSON object in braces.");
        var root = new JsonFields(json, "", faults);
        var lookout = ReadLookout(root.Object("lookout"), needs);
        var grids = root.Texts("grids");
        if (needs.HasFlag(PlanNeeds.Lookout) && grids.Count == 0 && !faults.Found.Any(fault => fault.Field == "grids"))
            faults.Add("grids", "Is missing; name at least one elevation grid.");
        var fillsHoles = root.Flag("fillHoles");
        var heightErrorM = root.NumberOrNone("heightErrorM", 0.01, 200);
        var date = ReadDate(root, needs);
        var span = root.Object("span");
        var (bearings, ridgeFrom, vertical, pitch) = ReadSpan(span);
        var crestShare = ReadCrestShare(span);
        var darkStrips = ReadDarkStrips(span);
        span.RefuseUnknown();
        var (gear, otherLenses) = ReadGear(root, needs);
        var set = SetReader.Read(root.Object("set"), faults);
        var conditions = ConditionsReader.Read(root.Object("conditions"), soundings, faults, weathers, surfaces);
        var (thresholds, drift, chances) = ReadThresholds(root.Object("thresholds"), ridgeFrom);
        var weights = ReadWeights(root.Object("seasonWeights"));
        var picture = root.Choice("picture", PictureKind.LitRidgeOverDarkGround, [.. Enum.GetValues<PictureKind>().Select(kind => (JsonNamingPolicy.CamelCase.ConvertName(kind.ToString()), kind))]);
        root.RefuseUnknown();
        faults.ThrowIfAny();
        return new Plan
        {
            Lookout = lookout,
            Grids = grids,
            FillHoles = fillsHoles,
            HeightError = heightErrorM is { } metres ? Length.FromMetres(metres) : null,
            Date = date,
            Span = bearings!,
            Vertical = vertical,
            CentrePitch = pitch,
            CrestShare = crestShare,
            Gear = gear,
            OtherLenses = otherLenses,
            Set = set.Settings!,
            ChooseDirection = set.ChooseDirection,
            Picture = picture,
            StartAt = set.StartAt,
            Chances = chances,
            SeasonWeights = weights,
            DarkStrips = darkStrips,
            ChooseExposure = set.ChooseExposure,
            Exposure = new ExposureSettings(gear?.Lens.Aperture ?? ExposureSettings.UsualAperture, set.Iso, set.HighlightMarginStops),
            Conditions = conditions,
            Thresholds = thresholds,
            ExposureDriftStops = drift,
        };
    }

    private static Lookout? ReadLookout(JsonFields fields, PlanNeeds needs)
    {
        if (!fields.IsPresent && !needs.HasFlag(PlanNeeds.Lookout)) return null;
        var latitude = fields.Number("latitudeDeg", -90, 90);
        var longitude = fields.Number("longitudeDeg", -180, 180);
        var eye = fields.Number("eyeHeightM", 0, 1000, 1.7);
        DateTimeZone? zone = null;
        if (fields.Text("timeZone") is { } name)
        {
            zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(name);
            if (zone is null) fields.Add("timeZone", $"Must be a time zone of the tz database such as Europe/Zurich or UTC; got '{Shortened.To80(name)}'.");
        }
        var declination = fields.NumberOrNone("magneticDeclinationDeg", -180, 180);
        fields.RefuseUnknown();
        return new Lookout(GeoPoint.FromDegrees(latitude, longitude), Length.FromMetres(eye), zone)
        {
            MagneticDeclination = declination is { } degrees ? Angle.FromDegrees(degrees) : null,
        };
    }

    private static LocalDate? ReadDate(JsonFields root, PlanNeeds needs)
    {
        if (root.Text("date") is not { } text)
        {
            if (needs.HasFlag(PlanNeeds.Date) && !root.Has("date")) root.Add("date", "Is missing; give a date such as 2026-02-14.");
            return null;
        }
        try
        {
            return TimeReader.Date(text, "date");
        }
        catch (BadInputException bad)
        {
            root.Add("date", bad.Faults[0].Message);
            return null;
        }
    }

    private static (BearingSpan? Bearings, double RidgeFromKm, Angle Vertical, Angle? Pitch) ReadSpan(JsonFields fields)
    {
        var from = fields.Number("fromDeg", -360, 360);
        var to = fields.Number("toDeg", -360, 360);
        var ridgeFromKm = fields.Positive("ridgeFromKm", 300, 5);
        var vertical = Angle.FromDegrees(fields.Positive("verticalDeg", 120, 12));
        var pitch = fields.NumberOrNone("centrePitchDeg", -80, 80);
        var isGiven = fields.Has("fromDeg") && fields.Has("toDeg");
        if (isGiven && Azimuth.FromDegrees(from) == Azimuth.FromDegrees(to))
            fields.Add("toDeg", $"Must differ from fromDeg: a span runs clockwise from one bearing to another; both are {from}°.");
        return (
            Azimuth.FromDegrees(from) == Azimuth.FromDegrees(to) ? null : BearingSpan.FromDegrees(from, to),
            ridgeFromKm, vertical, pitch is { } p ? Angle.FromDegrees(p) : null);
    }

    private static double ReadCrestShare(JsonFields fields)
    {
        var share = fields.Number("crestShare", 0.05, 0.95, 2.0 / 3);
        if (fields.Has("crestShare") && fields.Has("centrePitchDeg"))
            fields.Add("crestShare", "Cannot stand beside centrePitchDeg: either the pitch is given, or where the crest is to stand.");
        return share;
    }

    private static (Gear? Gear, IReadOnlyList<Lens> Others) ReadGear(JsonFields root, PlanNeeds needs)
    {
        var (camera, lens) = (root.Object("camera"), root.Object("lens"));
        if (!camera.IsPresent && !lens.IsPresent && !needs.HasFlag(PlanNeeds.Gear)) return (null, []);
        var gear = new Gear(
            new Camera(
                Length.FromMillimetres(camera.Number("sensorWidthMm", 1, 500)), Length.FromMillimetres(camera.Number("sensorHeightMm", 1, 500)),
                Math.Max(1, camera.Whole("pixelsWide", 1, 1_000_000)), Math.Max(1, camera.Whole("pixelsHigh", 1, 1_000_000))),
            new Lens(Length.FromMillimetres(lens.Number("focalLengthMm", 1, 5000)), lens.Number("aperture", 0.5, 128, 8)));
        var others = lens.Positives("alternativesMm", 5000).Select(focalMm => new Lens(Length.FromMillimetres(focalMm), gear.Lens.Aperture)).ToList();
        camera.RefuseUnknown();
        lens.RefuseUnknown();
        return (gear, others);
    }

    private static (LightThresholds Thresholds, double DriftStops, ChanceBounds Chances) ReadThresholds(JsonFields fields, double ridgeFromKm)
    {
        var usual = LightThresholds.Usual;
        var thresholds = new LightThresholds
        {
            RidgeFrom = Length.FromKilometres(ridgeFromKm),
            CrestBand = Angle.FromDegrees(fields.Number("crestBandDeg", 0.05, 20, usual.CrestBand.Degrees)),
            DiscShare = fields.Positive("discShare", 1, usual.DiscShare),
            LitStops = fields.Positive("litStops", 10, usual.LitStops),
            CrestLit = fields.Positive("crestLit", 1, usual.CrestLit),
            ColumnsLit = fields.Positive("columnsLit", 1, usual.ColumnsLit),
            ValleyLit = fields.Number("valleyLit", 0, 1, usual.ValleyLit),
            ValleyPart = fields.Number("valleyPart", 0, 1, usual.ValleyPart),
            LeastPicture = fields.Number("leastPicture", 0, 1, usual.LeastPicture),
            UnlitGap = Angle.FromDegrees(fields.Number("unlitGapDeg", 0, 360, usual.UnlitGap.Degrees)),
        };
        var drift = fields.Positive("exposureDriftStops", 10, 1.0 / 3);
        var chances = ReadChances(fields);
        fields.RefuseUnknown();
        return (thresholds, drift, chances);
    }

    private static ChanceBounds ReadChances(JsonFields fields)
    {
        var usual = ChanceBounds.Usual;
        var bounds = new ChanceBounds(
            fields.Positive("fitsChance", 1, usual.Fits), fields.Positive("tightChance", 1, usual.Tight), fields.Positive("unknownChance", 1, usual.UnknownMost),
            fields.Positive("leastSpanShare", 1, usual.LeastSpanShare));
        if (bounds.Tight > bounds.Fits) fields.Add("tightChance", $"Must not be more than fitsChance, {bounds.Fits}; got {bounds.Tight}.");
        return bounds;
    }

    /// <summary>Bearings from left to right that may stay dark.</summary>
    private static List<BearingSpan> ReadDarkStrips(JsonFields span) =>
    [
        .. span.Objects("darkStrips").Select(strip =>
        {
            var (from, to) = (strip.Number("fromDeg", -360, 360), strip.Number("toDeg", -360, 360));
            strip.RefuseUnknown();
            if (Azimuth.FromDegrees(from) != Azimuth.FromDegrees(to)) return BearingSpan.FromDegrees(from, to);
            strip.Add("toDeg", $"Must differ from fromDeg; both are {from}°.");
            return null;
        }).OfType<BearingSpan>(),
    ];

    private static SeasonWeights ReadWeights(JsonFields fields)
    {
        const double most = 100;
        var given = Enum.GetValues<SeasonAspect>().Select(aspect => (Aspect: aspect, Name: JsonNamingPolicy.CamelCase.ConvertName(aspect.ToString())))
            .Where(entry => fields.Has(entry.Name)).Select(entry => KeyValuePair.Create(entry.Aspect, fields.Number(entry.Name, 0, most))).ToList();
        fields.RefuseUnknown();
        return given.Count > 0 ? SeasonWeights.With(given) : SeasonWeights.Usual;
    }
}
