using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace Glowcast.Server.Telemetry;

/// <summary>Sends metrics and traces to a collector of OpenTelemetry, where one is named.</summary>
internal static class Exports
{
    private static readonly string[] Meters = [Measured.Name, "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", "System.Runtime"];
    private static readonly string[] Sources = [Measured.Name, "Microsoft.AspNetCore"];

    /// <param name="collector">Base address of its OTLP receiver over HTTP, such as http://127.0.0.1:4318; null for none.</param>
    public static void AddTelemetry(this IServiceCollection services, Uri? collector)
    {
        if (collector is null) return;
        services.AddOpenTelemetry()
            .ConfigureResource(resource => resource.AddService("glowcast"))
            .WithMetrics(metrics => metrics.AddMeter(Meters).AddOtlpExporter(export => Send(export, collector, "v1/metrics")))
            .WithTracing(traces => traces.AddSource(Sources).AddOtlpExporter(export => Send(export, collector, "v1/traces")));
    }

    private static void Send(OtlpExporterOptions export, Uri collector, string path) =>
        (export.Protocol, export.Endpoint) = (OtlpExportProtocol.HttpProtobuf, new Uri(collector, path));
}
