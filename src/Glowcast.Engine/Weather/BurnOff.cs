using MathNet.Numerics.RootFinding;

namespace Glowcast.Engine.Weather;

/// <summary>How long the sun needs to clear a deck, counted from when it reaches the deck (docs/model.md, W10): a range, never a promise.</summary>
/// <param name="ClearingTemperatureC">What the ground's air must reach so that its cloud base rises to the deck's top.</param>
/// <param name="HeatMJPerM2">The heat that this takes.</param>
/// <param name="EarliestHours">In strong sun, as in spring or autumn: 150 W/m² into the air.</param>
/// <param name="MiddleHours">In winter sun: 80 W/m².</param>
/// <param name="LatestHours">In low winter sun or over snow: 40 W/m².</param>
public sealed record BurnOff(double ClearingTemperatureC, double HeatMJPerM2, double EarliestHours, double MiddleHours, double LatestHours)
{
    private const double StrongWPerM2 = 150;
    private const double WinterWPerM2 = 80;
    private const double LowWPerM2 = 40;
    private const double SecondsPerHour = 3600;
    private const double HoursOfADay = 12;

    public string Sentence => this switch
    {
        { HeatMJPerM2: <= 0 } => $"The ground's air is already warm enough ({ClearingTemperatureC:0.0} °C) for the deck to break up once the sun stirs it.",
        { IsWithinADay: false } => $"It would take {ClearingTemperatureC:0.0} °C at the ground to clear the deck: more heat than one day's sun gives. Count on it to stay, unless wind above 10 kt or drier air comes.",
        _ => $"It takes {ClearingTemperatureC:0.0} °C at the ground to clear the deck: {Hours(EarliestHours)} to {Hours(LatestHours)} of sun on it. Cloud above, snow and a deep cold pool make it longer, up to days; wind above 10 kt makes it shorter.",
    };

    /// <summary>A day's sun may clear it.</summary>
    public bool IsWithinADay => EarliestHours <= HoursOfADay;

    /// <summary>Null for a deck so high that no sensible warmth clears it.</summary>
    public static BurnOff? Of(Profile profile, CloudDeck deck)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(deck);
        const double hottestC = 60;
        var (surface, depthM) = (profile.Surface, deck.TopHigh.Metres - profile.Surface.HeightM);
        double OverTopM(double temperatureC) => MoistAir.LiftedCondensation(surface.PressureHPa, temperatureC, surface.DewPointC).HeightM - depthM;
        if (OverTopM(hottestC) < 0) return null;
        var clearingC = Brent.FindRoot(OverTopM, surface.DewPointC, hottestC, 1e-6);
        var warmingC = Math.Max(0, clearingC - surface.TemperatureC);
        var density = 100 * surface.PressureHPa / (MoistAir.DryGasConstant * MoistAir.VirtualTemperatureK(surface.PressureHPa, surface.TemperatureC, surface.DewPointC));
        // Fog warms from the ground, least at its top; under stratus the air is stirred and warms evenly.
        var share = deck.Kind == DeckKind.Fog ? 0.5 : 1;
        var heatJ = share * density * MoistAir.HeatCapacity * warmingC * depthM;
        return new BurnOff(clearingC, heatJ / 1e6, HoursAt(StrongWPerM2), HoursAt(WinterWPerM2), HoursAt(LowWPerM2));

        double HoursAt(double wattsPerM2) => heatJ / wattsPerM2 / SecondsPerHour;
    }

    private static string Hours(double hours) => hours < 1 ? $"{Math.Round(60 * hours / 5) * 5:0} min" : $"{hours:0.0} h";
}
