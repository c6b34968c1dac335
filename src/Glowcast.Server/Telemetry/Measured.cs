using System.Diagnostics;
using System.Diagnostics.Metrics;

namespace Glowcast.Server.Telemetry;

/// <summary>What the service measures of its own work. Nobody listens unless telemetry is switched on.</summary>
internal static class Measured
{
    public const string Name = "Glowcast";

    private static readonly Meter Meter = new(Name);

    public static ActivitySource Spans { get; } = new(Name);

    /// <summary>Forecasts asked for, by whether they were remembered.</summary>
    public static Counter<long> Forecasts { get; } = Meter.CreateCounter<long>("glowcast.forecasts");

    public static Histogram<double> ForecastSeconds { get; } = Meter.CreateHistogram<double>("glowcast.forecast.duration", "s", "Time to work one forecast out.");

    /// <summary>Jobs that ended, by kind and state.</summary>
    public static Counter<long> Jobs { get; } = Meter.CreateCounter<long>("glowcast.jobs");
}
