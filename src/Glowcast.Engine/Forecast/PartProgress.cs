namespace Glowcast.Engine.Forecast;

/// <summary>One stretch of longer work: what is reported of it, 0 to 1, is a share of the whole.</summary>
internal sealed class PartProgress(IProgress<double> whole, double from, double share) : IProgress<double>
{
    /// <summary>Null where nobody watches.</summary>
    public static PartProgress? Of(IProgress<double>? whole, double from, double share) => whole is null ? null : new PartProgress(whole, from, share);

    public void Report(double value) => whole.Report(from + (share * value));
}
