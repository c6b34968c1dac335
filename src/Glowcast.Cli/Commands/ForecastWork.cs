using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Commands;

/// <summary>The long work of a forecast, watched.</summary>
internal static class ForecastWork
{
    /// <inheritdoc cref="Forecaster.Forecast(Plan, ElevationGrid, IProgress{double}, CancellationToken)"/>
    public static LightForecast Run(Terminal terminal, Plan plan, ElevationGrid grid, CancellationToken cancel)
    {
        using var progress = new ProgressLine(terminal, "working out the light");
        return Forecaster.Forecast(plan, grid, progress, cancel);
    }

    /// <inheritdoc cref="Forecaster.LightAlone(Plan, ElevationGrid, IProgress{double}, CancellationToken)"/>
    public static LightForecast LightAlone(Terminal terminal, Plan plan, ElevationGrid grid, CancellationToken cancel)
    {
        using var progress = new ProgressLine(terminal, "working out the light");
        return Forecaster.LightAlone(plan, grid, progress, cancel);
    }
}
