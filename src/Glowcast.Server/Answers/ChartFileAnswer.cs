using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;

namespace Glowcast.Server.Answers;

/// <summary>A light chart as a file of its own: named layers over two axes.</summary>
/// <param name="Date">Local.</param>
/// <param name="Layout">How a layer's values follow one another.</param>
/// <param name="ByMinute">What has one value a minute for the whole ridge: beam, sky and twilight.</param>
public sealed record ChartFileAnswer(
    string Date, string? TimeZone, MinuteAxisAnswer Minutes, ColumnAxisAnswer Columns, string Layout, IReadOnlyList<ChartLayerAnswer> Layers,
    ChartMinutesAnswer ByMinute, AssumedAnswer Assumed)
{
    private const string RowMajor = "row-major: one row a minute, in it one value a column from left to right; base64";

    /// <summary>Null on a day without a chart.</summary>
    public static ChartFileAnswer? Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        if (forecast is not { Chart: { } chart, Brightness: { } ridge }) return null;
        var (plan, scene) = (forecast.Plan, chart.Scene);
        var byMinute = ChartMinutesAnswer.Of(chart, ridge, plan.Conditions.Haze);
        var crestDisc = chart.MeanDiscShares(IsCrest);
        return new ChartFileAnswer(
            NodaTime.Text.LocalDatePattern.Iso.Format(plan.Date!.Value), plan.Lookout!.Zone?.Id,
            new MinuteAxisAnswer(Moments.Utc(chart.Track.Interval.Start), 60, chart.Minutes),
            new ColumnAxisAnswer(scene.Span.From.Degrees, scene.View.ColumnWidth.Degrees, scene.Columns, [.. chart.CrestLit.Select(crest => crest is not null)]),
            RowMajor,
            [
                Share("crestLit", "of the crest band in direct light", ChartShares.Lit(chart, IsCrest)),
                Share("ridgeLit", "of all visible ridge in direct light", ChartShares.Lit(chart, IsRidge)),
                Share("valleyLit", "of the visible valley in direct light", ChartShares.Lit(chart, IsValley)),
                Share("crestDisc", "of the sun's disc that the crest band sees, the mean", crestDisc),
                Share("ridgeDisc", "of the sun's disc that all visible ridge sees, the mean", chart.MeanDiscShares(IsRidge)),
                Share("valleyDisc", "of the sun's disc that the visible valley sees, the mean", chart.MeanDiscShares(IsValley)),
                ChartLayerAnswer.Lux("crestLux", "direct light on crest that faces the sun: the beam of the minute times crestDisc", crestDisc, byMinute.BeamLux),
            ],
            byMinute, AssumedAnswer.Of(plan));

        static bool IsCrest(PatchRole role) => role == PatchRole.Crest;
        static bool IsRidge(PatchRole role) => role is PatchRole.Crest or PatchRole.Ridge;
        static bool IsValley(PatchRole role) => role == PatchRole.Valley;
        static ChartLayerAnswer Share(string name, string of, byte[] shares) => new(name, $"share {of}", "uint8", 1.0 / 255, shares);
    }
}

/// <param name="Start">UTC of the first minute.</param>
public sealed record MinuteAxisAnswer(string Start, double StepS, int Count);

/// <param name="FromDeg">True bearing of the left edge of the first column.</param>
/// <param name="StepDeg">Width of a column, clockwise.</param>
/// <param name="HasRidge">For each column, whether it shows ridge.</param>
public sealed record ColumnAxisAnswer(double FromDeg, double StepDeg, int Count, IReadOnlyList<bool> HasRidge);

/// <summary>One quantity of every minute and column.</summary>
/// <param name="Unit">Of the value times the scale.</param>
/// <param name="Type">Of a stored value: uint8, or uint16 with its low byte first.</param>
/// <param name="Data">The stored values.</param>
public sealed record ChartLayerAnswer(string Name, string Unit, string Type, double Scale, byte[] Data)
{
    // A beam outside the air has 133 000 lx.
    private const double LuxStep = 4;

    /// <param name="discShares">0 to 255, row-major.</param>
    /// <param name="beamLux">One value a minute.</param>
    internal static ChartLayerAnswer Lux(string name, string unit, byte[] discShares, IReadOnlyList<double> beamLux)
    {
        var columns = discShares.Length / beamLux.Count;
        var data = new byte[2 * discShares.Length];
        for (var i = 0; i < discShares.Length; i++)
        {
            var steps = (ushort)Math.Round(Math.Min(ushort.MaxValue, discShares[i] / 255.0 * beamLux[i / columns] / LuxStep));
            System.Buffers.Binary.BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan(2 * i), steps);
        }
        return new ChartLayerAnswer(name, $"lx; {unit}", "uint16", LuxStep, data);
    }
}
