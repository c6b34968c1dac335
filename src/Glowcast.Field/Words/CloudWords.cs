using Glowcast.Engine.Forecast;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Field.Words;

/// <summary>What a profile tells of a sea of cloud, in sentences.</summary>
public static class CloudWords
{
    /// <summary>The reasons with what each counts, then what distance and age change.</summary>
    public static IReadOnlyList<string> Reasons(CloudDiagnosis diagnosis, ProfileReach reach, UnitSystem units = UnitSystem.Metric)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        ArgumentNullException.ThrowIfNull(reach);
        return
        [
            .. diagnosis.Reasons.Select(reason => reason.Points == 0 ? Reason(reason, units) : $"{Reason(reason, units)} Counts {reason.Points:+0;-0}."),
            Far(reach, units), Old(reach),
        ];
    }

    /// <summary>With the figure found, the threshold and where that is from.</summary>
    public static string Reason(LikelihoodReason reason, UnitSystem units = UnitSystem.Metric)
    {
        ArgumentNullException.ThrowIfNull(reason);
        var range = reason is { Base: { } from, Top: { } to } ? Lengths.HeightRange(from, to, units) : "";
        var within = reason.Within is { } limit ? Lengths.Height(limit, units) : "";
        return reason.Finding switch
        {
            LikelihoodFinding.SaturatedLayer => $"The layer under the inversion is saturated: temperature and dew point come within {reason.DepressionC:0.0} °C, and 1 °C or less is cloud (a depression near 0; Hong Kong Observatory on upper-air charts).",
            LikelihoodFinding.MoistLayer => $"The layer under the inversion is moist: temperature and dew point come within {reason.DepressionC:0.0} °C, and cloud is likely up to 2 °C (after J. Appl. Meteor. 35 (1996) 1362).",
            LikelihoodFinding.NearlyMoist => $"There is no deck, but temperature and dew point come within {reason.DepressionC:0.0} °C below {within}, and a sensor can read up to 4 °C at the base of low cloud (Remote Sensing 11 (2019) 2900).",
            LikelihoodFinding.NoInversion => $"No inversion of {reason.StrengthC:0} °C or more begins within {within} of the ground: nothing would hold a deck down, so a sea of cloud is unlikely (the definition of a cloud inversion; 1 °C as the least that counts is common practice).",
            LikelihoodFinding.StrongInversion => $"The inversion from {range} is strong: {reason.StrengthC:0.0} °C, of which 3 °C and more count as strong (common practice).",
            LikelihoodFinding.WeakInversion => $"The inversion from {range} is weak: {reason.StrengthC:0.0} °C, where 3 °C would be strong and 1 °C is the least that counts (common practice).",
            LikelihoodFinding.DryAirAbove => $"Dry air (temperature and dew point {reason.DepressionC:0} °C or more apart) lies within {within} above the inversion, so the deck's top is sharp (a shallow moist layer beneath a dry one: American Meteorological Society on radiation fog).",
            LikelihoodFinding.LightWind => $"The mean wind of the lowest {within} is light: {reason.WindKt:0} kt, and fog forms up to about 5 kt (University of Arizona, NATS 101, lecture 10).",
            LikelihoodFinding.StirringWind => $"The mean wind of the lowest {within} is {reason.WindKt:0} kt; above 10 to 15 kt the air is stirred, and fog lifts into broken stratus (US Navy weather training manual 14010).",
            LikelihoodFinding.CloudAbove => $"Another moist layer lies above the deck, from {range}: cloud there shades the deck from its own cooling, and you from the sun (clear sky above is part of what makes a cloud inversion; American Meteorological Society on radiation fog).",
            _ => throw new ArgumentOutOfRangeException(nameof(reason), reason.Finding, "Has no sentence."),
        };
    }

    /// <summary>Where a lookout stands.</summary>
    public static string Lookout(LookoutInCloud lookout, UnitSystem units = UnitSystem.Metric)
    {
        ArgumentNullException.ThrowIfNull(lookout);
        return Against(lookout, units) + (lookout.HiddenBy is { } layer
            ? $" It lies in {(lookout.Deck is null ? "a" : "another")} moist layer, from {Lengths.HeightRange(layer.Base, layer.Top, units)}: expect cloud there."
            : "");
    }

    /// <summary>The deck that a forecast assumes, and why.</summary>
    public static string Given(GivenDeck given, UnitSystem units = UnitSystem.Metric)
    {
        ArgumentNullException.ThrowIfNull(given);
        var top = given.Top is { } height ? Lengths.Height(height, units) : "";
        var ofSounding = given.Diagnosis?.Deck is { } deck ? Top(deck, units) : "none";
        return (given.Source, given.Diagnosis) switch
        {
            (DeckSource.Typed, null) => $"A deck with its top at {top} is assumed, as the plan gives it.",
            (DeckSource.Typed, _) => $"A deck with its top at {top} is assumed, as the plan gives it; the sounding's own ({ofSounding}) is not used.",
            (DeckSource.Sounding, _) => $"The sounding shows a deck, its top at {ofSounding}; {top} is assumed, the high estimate.",
            (_, null) => "No cloud below the lookout is assumed.",
            _ => "The sounding shows no deck; none is assumed.",
        };
    }

    private static string Top(CloudDeck deck, UnitSystem units) => Lengths.HeightRange(deck.TopLow, deck.TopHigh, units);

    private static string Against(LookoutInCloud lookout, UnitSystem units)
    {
        if (lookout.Deck is not { } deck) return "The profile has no deck.";
        var at = $"The lookout, at {Lengths.Height(lookout.Height, units)}, stands";
        return lookout.Verdict switch
        {
            LookoutVerdict.Above => $"{at} {Lengths.Height(lookout.Height - deck.TopHigh, units)} above the top of the deck.",
            LookoutVerdict.At => $"{at} at the top of the deck ({Top(deck, units)}): it may be in cloud at any time.",
            LookoutVerdict.In => $"{at} in the deck (base {Lengths.Height(deck.Base, units)}, top {Top(deck, units)}).",
            _ => $"{at} below the deck, whose base is at {Lengths.Height(deck.Base, units)}.",
        };
    }

    private static string Far(ProfileReach reach, UnitSystem units) => reach.Distance switch
    {
        { } far when far > ProfileReach.Near => $"The profile was taken {Lengths.Distance(far, units)} away; more than {Lengths.Distance(ProfileReach.Near, units)} lowers the class by one (common practice).",
        { } near => $"The profile was taken {Lengths.Distance(near, units)} away. Another valley can have another deck.",
        null => "How far away the profile was taken is not known. Another valley can have another deck.",
    };

    private static string Old(ProfileReach reach) => reach.Age switch
    {
        { } old when old > ProfileReach.Fresh => $"The profile is {Long(old)} from the time asked for; more than {ProfileReach.Fresh.TotalHours:0} h lowers the class by one (common practice).",
        { } fresh => $"The profile is {fresh.TotalHours:0.#} h from the time asked for.",
        null => "How old the profile is at the time asked for is not known.",
    };

    private static string Long(Duration age) => age.TotalDays < 3 ? $"{age.TotalHours:0} h" : $"{age.TotalDays:0} days";
}
