using System.Globalization;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>One part of a score.</summary>
/// <param name="Value">0 to 1; null where the picture has nothing to judge, and the part then counts for nothing.</param>
/// <param name="Weight">Of all weights, which add up to 1.</param>
public sealed record ScorePart(SeasonAspect Aspect, double? Value, double Weight, string Reason);

/// <summary>The score of a window, part by part.</summary>
/// <param name="Shortfall">The chance that the whole set has its light; 1 where none is planned.</param>
public sealed record DayScore(IReadOnlyList<ScorePart> Parts, double Shortfall)
{
    /// <summary>0 to 1: the weighted mean of the parts, times the shortfall.</summary>
    public double Total => Parts.Sum(part => part.Value is null ? 0 : part.Weight) is > 0 and var weights
        ? Shortfall * Parts.Sum(part => part.Weight * (part.Value ?? 0)) / weights
        : 0;

    public IReadOnlyList<string> Reasons => [.. Parts.Select(part => part.Reason)];
}

/// <summary>Ranks the days of a season by their best window. Weights and scales are ours; common practice, no source.</summary>
/// <param name="SetLength">How long the planned set takes; null when no set is planned.</param>
public sealed record SeasonScore(Duration? SetLength = null)
{
    // A window longer than the set by this, or by three sets, has half the room anybody could wish for; as much again halves
    // what is missing.
    private static readonly Duration HalfRoom = Duration.FromMinutes(20);

    private const double HalfRoomSets = 3;

    // A share of the ridge in shadow between these models it, as in docs/model.md, L14.
    private const double LeastShadow = 0.2;
    private const double MostShadow = 0.6;

    public SeasonWeights Weights { get; init; } = SeasonWeights.Usual;

    /// <summary>The share of days on which the sky towards the sun is clear at that date and half of the day, 0 to 1; null where no
    /// climatology is at hand, for none or for a date.</summary>
    public Func<LocalDate, DayHalf, double?>? ClearSky { get; init; }

    internal SeasonDay Judge(LocalDate date, IReadOnlyList<SeasonWindow> windows)
    {
        var (best, score) = windows.Select(window => (Window: window, Score: Of(window))).MaxBy(judged => judged.Score.Total);
        return new SeasonDay(date, windows, best, score, null);
    }

    /// <summary>The score of one window.</summary>
    public DayScore Of(SeasonWindow window)
    {
        ArgumentNullException.ThrowIfNull(window);
        List<ScorePart> parts = [Coverage(window), ValleyShade(window), Length(window), Colour(window), Relief(window), Black(window), Hour(window), Moon(window)];
        if (ClearSky?.Invoke(window.Begins.Date, window.Half) is { } clear) parts.Add(new ScorePart(SeasonAspect.ClearSky, clear, 0, Text($"The sky is clear then in {clear:0 %} of years.")));
        var sum = parts.Sum(part => Weights.Of(part.Aspect));
        return new DayScore([.. parts.Select(part => part with { Weight = sum > 0 ? Weights.Of(part.Aspect) / sum : 0 })], window.Fit?.Chance ?? 1);
    }

    private static ScorePart Coverage(SeasonWindow window)
    {
        var least = window.Thresholds.ColumnsLit;
        return new ScorePart(
            SeasonAspect.Coverage, least < 1 ? Math.Clamp((window.RidgeShare - least) / (1 - least), 0, 1) : 1, 0,
            Text($"{window.RidgeShare:0 %} of the ridge is lit on average."));
    }

    private static ScorePart ValleyShade(SeasonWindow window)
    {
        if (window.ValleyShare is not { } lit) return new ScorePart(SeasonAspect.ValleyShade, null, 0, "No valley is seen under the ridge.");
        var most = window.Thresholds.ValleyLit;
        return new ScorePart(
            SeasonAspect.ValleyShade, most > 0 ? Math.Clamp(1 - (lit / most), 0, 1) : 1, 0, Text($"{lit:0 %} of the valley is lit on average."));
    }

    private ScorePart Length(SeasonWindow window)
    {
        var (length, set) = (window.Time.Duration, SetLength ?? Duration.Zero);
        var room = window.Fit?.Room ?? length - set;
        var half = Duration.Max(HalfRoom, set * HalfRoomSets);
        var beyond = Duration.Max(Duration.Zero, room) / half;
        return new ScorePart(SeasonAspect.Length, 1 - Math.Pow(2, -beyond), 0, Text($"The window lasts {length.TotalMinutes:0} min{InWords(window.Fit)}."));
    }

    private static string InWords(DayFit? fit) => fit switch
    {
        null => "",
        { Verdict: Verdict.Fits } => Text($", and its starts {fit.Room.TotalMinutes:0.#} min: the set fits"),
        { Verdict: Verdict.Tight } => Text($", and its starts {fit.Room.TotalMinutes:0.#} min: the set is tight"),
        { Room: var room } when room > Duration.Zero => Text($", and its starts {room.TotalMinutes:0.#} min, which is less than they are sure by: the set does not fit"),
        _ => Text($", but not all frames have their light at once: the set is {-fit.Room.TotalMinutes:0.#} min too long and does not fit"),
    };

    private static ScorePart Colour(SeasonWindow window)
    {
        if (window.BeamColour is not { } colour) return new ScorePart(SeasonAspect.Colour, null, 0, "No crest is lit half-way: no colour to judge.");
        var at = Text($"the sun {window.SunAltitudeDeg:0.0}° high");
        if (colour.Correlated() is not { } temperature) return new ScorePart(SeasonAspect.Colour, 1, 0, $"Deep red light, {at}.");
        var warmth = LightRichness.Warmth(colour);
        var word = warmth switch { > 0.6 => "Red", > 0.3 => "Warm", > 0.125 => "Fading warm", _ => "White" };
        return new ScorePart(SeasonAspect.Colour, warmth, 0, Text($"{word} light, {Math.Round(temperature.Kelvin / 50) * 50:0} K, {at}."));
    }

    private static ScorePart Relief(SeasonWindow window)
    {
        if (window.Relief is not { } relief) return new ScorePart(SeasonAspect.Relief, null, 0, "No ground to judge relief by.");
        var side = window.Direction switch { LightDirection.Front => "front", LightDirection.Side => "side", _ => "back" };
        var value = relief.Shadow switch
        {
            < LeastShadow => relief.Shadow / LeastShadow,
            > MostShadow => (1 - relief.Shadow) / (1 - MostShadow),
            _ => 1,
        };
        return new ScorePart(SeasonAspect.Relief, value, 0, Text($"{relief.Shadow:0 %} of the ridge lies in shadow, in {side} light: {Word(relief.Reading)}."));
    }

    private static string Word(ReliefReading reading) => reading switch
    {
        ReliefReading.Flat => "little relief",
        ReliefReading.Modelled => "well modelled",
        _ => "mostly dark",
    };

    private static ScorePart Black(SeasonWindow window)
    {
        if (window.BlackPoint is not { } black) return new ScorePart(SeasonAspect.BlackPoint, null, 0, "No crest is lit half-way: no black point to judge.");
        var verdict = black.Verdict switch
        {
            BlackPointVerdict.Has => "a black point",
            BlackPointVerdict.Weak => "a weak black point",
            _ => "no black point",
        };
        return new ScorePart(
            SeasonAspect.BlackPoint, LightRichness.Depth(black.Stops), 0,
            Text($"Shade lies {black.Stops:0.0} stops under lit ridge at {black.Distance.Kilometres:0} km: {verdict}."));
    }

    // From seven in the morning to eight in the evening anybody can be there; at three in the morning and at midnight hardly.
    private static ScorePart Hour(SeasonWindow window)
    {
        var hour = window.Begins.TimeOfDay.NanosecondOfDay / (double)NodaConstants.NanosecondsPerHour;
        var value = hour < 7 ? Math.Clamp((hour - 3) / 4, 0, 1) : Math.Clamp((24 - hour) / 4, 0, 1);
        var half = window.Half == DayHalf.Morning ? "morning" : "evening";
        return new ScorePart(
            SeasonAspect.Hour, value, 0, Text($"It begins at {Rounded.ToMinutes(window.Begins).ToString("HH:mm", CultureInfo.InvariantCulture)} on a {window.Begins.DayOfWeek}, in the {half}."));
    }

    private static ScorePart Moon(SeasonWindow window)
    {
        var moon = window.Moon;
        var where = !moon.IsUp ? "below the horizon" : moon.InSpan ? Text($"{moon.AltitudeDeg:0}° high in the picture") : Text($"{moon.AltitudeDeg:0}° high outside the picture");
        return new ScorePart(
            SeasonAspect.Moon, moon.InSpan ? moon.LitShare : 0, 0,
            Text($"The moon is {moon.AgeDays:0} days old, {moon.LitShare:0 %} lit and {(moon.IsWaxing ? "waxing" : "waning")}, {where}."));
    }

    private static string Text(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
