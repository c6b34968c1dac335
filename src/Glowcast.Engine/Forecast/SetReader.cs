using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Reads the part of a plan that says how the set is shot.</summary>
internal static class SetReader
{
    private const double LongestStepS = 600;
    private const double LongestExposureS = 3600;
    private const double ShortestExposureS = 0.000001;
    private const double MostOverlap = 0.95;

    /// <summary>Whatever is wrong is told to <paramref name="faults"/>.</summary>
    public static GivenSet Read(JsonFields fields, Faults faults)
    {
        var chooseExposure = !fields.Has("exposureS");
        var iso = fields.Number("iso", 1, 10_000_000, Metering.UsualIso);
        var margin = fields.Number("highlightMarginStops", -3, 6, ExposureSettings.UsualMarginStops);
        var before = faults.Found.Count;
        var usual = new SetSettings();
        var times = ReadTimes(fields, usual.Times);
        var orientation = fields.Choice("orientation", usual.Orientation, ("portrait", Orientation.Portrait), ("landscape", Orientation.Landscape));
        var overlap = fields.Number("overlap", 0, MostOverlap, usual.Overlap);
        var rowOverlap = fields.Number("rowOverlap", 0, MostOverlap, usual.RowOverlap);
        var columns = fields.WholeOrNone("columns", 1, 1000);
        var rows = fields.WholeOrNone("rows", 1, 50);
        var spare = fields.Whole("spareFrames", 0, 20, usual.SpareFrames);
        var repeats = fields.Whole("repeats", 0, 50, usual.Repeats);
        var rowOrder = fields.Choice("rowOrder", usual.Order.Rows, ("oneWay", RowOrder.OneWay), ("backAndForth", RowOrder.BackAndForth));
        var direction = fields.Choice<SweepDirection?>("direction", null, ("leftToRight", SweepDirection.LeftToRight), ("rightToLeft", SweepDirection.RightToLeft));
        var level = fields.Number("levelErrorDeg", 0, 20, usual.LevelError.Degrees);
        var pupil = fields.Number("pupilOffsetMm", 0, 1000, usual.PupilOffset.Millimetres);
        var clickStops = fields.Positives("clickStopsDeg", 180);
        var bracket = ReadBracket(fields);
        var ppi = fields.Number("printPpi", 10, 5000, usual.PrintPpi);
        var startAt = StartReader.Read(fields);
        fields.RefuseUnknown();
        var given = new GivenSet(null, direction is null, startAt, chooseExposure, iso, margin);
        if (faults.Found.Count > before) return given;
        var settings = new SetSettings
        {
            Orientation = orientation,
            Overlap = overlap,
            RowOverlap = rowOverlap,
            Columns = columns,
            Rows = rows,
            SpareFrames = spare,
            Repeats = repeats,
            Order = new ShootingOrder(direction ?? SweepDirection.LeftToRight, rowOrder),
            Times = times,
            LevelError = Angle.FromDegrees(level),
            PupilOffset = Length.FromMillimetres(pupil),
            ClickStops = [.. clickStops.Select(Angle.FromDegrees)],
            PrintPpi = ppi,
            Bracket = bracket,
        };
        return given with { Settings = settings };
    }

    private static Bracket ReadBracket(JsonFields fields)
    {
        var shots = fields.Whole("bracketShots", 1, 9, 1);
        if (shots % 2 == 0) fields.Add("bracketShots", $"Must be odd, so that the metered exposure is among them: 1 for none, 3, 5, 7 or 9; got {shots}.");
        var stops = fields.Positive("bracketStops", 5, 1);
        return shots is 3 or 5 or 7 or 9 ? new Bracket(shots, stops) : Bracket.None;
    }

    private static StepTimes ReadTimes(JsonFields fields, StepTimes usual)
    {
        Duration Time(string name, Duration fallback) => Duration.FromSeconds(fields.Number(name, 0, LongestStepS, fallback.TotalSeconds));
        return new StepTimes
        {
            Rotate = Time("rotateS", usual.Rotate),
            Settle = Time("settleS", usual.Settle),
            ReleaseDelay = Time("releaseDelayS", usual.ReleaseDelay),
            Exposure = Duration.FromSeconds(fields.Number("exposureS", ShortestExposureS, LongestExposureS, usual.Exposure.TotalSeconds)),
            Write = Time("writeS", usual.Write),
            RowChange = Time("rowChangeS", usual.RowChange),
            Return = Time("returnS", usual.Return),
            Marker = Time("markerS", usual.Marker),
            RepeatGap = Time("repeatGapS", usual.RepeatGap),
        };
    }
}
