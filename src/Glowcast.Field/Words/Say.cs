using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Field.Words;

/// <summary>Quantities in words.</summary>
internal static class Say
{
    private const double SecondsPerMinute = 60;
    private const double SecondsPerHour = 3600;

    /// <summary>A stretch of time as one would say it: "48 s", "12 min 30 s", "3 h 05 min".</summary>
    public static string Time(double seconds)
    {
        var whole = Math.Round(Math.Abs(seconds));
        return whole switch
        {
            < SecondsPerMinute => $"{whole:0} s",
            < SecondsPerHour => $"{Math.Floor(whole / SecondsPerMinute):0} min {whole % SecondsPerMinute:00} s",
            _ => $"{Math.Floor(whole / SecondsPerHour):0} h {Math.Floor(whole % SecondsPerHour / SecondsPerMinute):00} min",
        };
    }

    public static string Time(Duration duration) => Time(duration.TotalSeconds);

    /// <summary>One standard deviation.</summary>
    public static string PlusMinus(double seconds) => $"± {Time(seconds)}";

    /// <summary>To a tenth of a degree.</summary>
    public static string Bearing(Azimuth bearing) => $"{bearing.Degrees:0.0}°";

    public static string Metres(Length length) => $"{length.Metres:0} m";

    public static string Distance(double metres) => metres < 10_000 ? $"{metres:0} m" : $"{metres / 1000:0.0} km";

    public static string Share(double share) => $"{100 * share:0} %";

    public static string Share(double? share) => share is { } known ? Share(known) : "none seen";

    public static string Beyond(SightModel model) => model.BeyondGrid.Kind switch
    {
        PastEdgeKind.AsTheEdge => "a smooth earth as high as the grid's own edge there",
        PastEdgeKind.SmoothEarth => $"a smooth earth at {Metres(model.BeyondGrid.Height!.Value)}",
        _ => "nothing",
    };

    /// <summary>What lines of sight are taken to do, for the foot of an answer.</summary>
    public static string Sight(SightModel model) =>
        $"Taken: refraction k = {model.RefractionK}; past the grid's edge {Beyond(model)}.";

    public static string Iso(LocalDate date) => NodaTime.Text.LocalDatePattern.Iso.Format(date);

    public static string Day(LocalDate date, DateTimeZone? zone) =>
        zone is null ? $"{Iso(date)}, reckoned by the sun" : $"{Iso(date)}, {zone.Id}";
}
