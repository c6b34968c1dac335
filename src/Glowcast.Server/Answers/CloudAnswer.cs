using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>What is assumed of a sea of cloud.</summary>
/// <param name="DeckTopM">Null for none.</param>
/// <param name="DeckFrom">Where that height is from.</param>
/// <param name="Sentence">What is assumed, and why.</param>
/// <param name="Sounding">What the plan's sounding tells; null without one.</param>
public record DeckGivenAnswer(double? DeckTopM, DeckSource DeckFrom, string Sentence, SoundingAnswer? Sounding)
{
    /// <summary>The same with feet.</summary>
    public required string SentenceImperial { get; init; }

    /// <param name="reach">How far off the sounding is.</param>
    /// <param name="eyeHeight">Null where it is not known.</param>
    public static DeckGivenAnswer Of(GivenDeck deck, ProfileReach reach, Length? eyeHeight)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return new DeckGivenAnswer(
            deck.Top?.Metres, deck.Source, CloudWords.Given(deck), deck.Diagnosis is { } diagnosis ? SoundingAnswer.Of(diagnosis, reach, eyeHeight) : null)
        {
            SentenceImperial = CloudWords.Given(deck, UnitSystem.Imperial),
        };
    }
}

/// <summary>What a forecast says of cloud.</summary>
/// <param name="Light">The sun on the deck; null without a deck in view.</param>
/// <param name="ClearsFrom">When the sounding's deck may have cleared at the earliest; null where that is not known.</param>
/// <param name="Sunward">Where named layers lie in the way of the windows' light.</param>
public sealed record CloudAnswer(
    double? DeckTopM, DeckSource DeckFrom, string Sentence, SoundingAnswer? Sounding, DeckSweepAnswer Sweep, DeckLightAnswer? Light,
    string? ClearsFrom, string? ClearsTo, IReadOnlyList<SunwardCutAnswer> Sunward) : DeckGivenAnswer(DeckTopM, DeckFrom, Sentence, Sounding)
{
    public static CloudAnswer Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        var cloud = forecast.Cloud;
        var given = Of(cloud.Deck, cloud.Reach ?? ProfileReach.Unknown, forecast.Eye.Height);
        return new CloudAnswer(
            given.DeckTopM, given.DeckFrom, given.Sentence, given.Sounding, DeckSweepAnswer.Of(cloud.Sweep),
            cloud.Light is { } light ? DeckLightAnswer.Of(light, forecast) : null,
            Utc(cloud.Clears?.Start), Utc(cloud.Clears?.End), [.. cloud.Sunward.Select(SunwardCutAnswer.Of)])
        {
            SentenceImperial = given.SentenceImperial,
        };
    }

    internal static string? Utc(Instant? instant) => instant is { } known ? Moments.Utc(known) : null;
}

/// <summary>What a rising deck would leave of the span.</summary>
/// <param name="FirstSwallowedM">From this top on the ridge begins to go; null where no ridge is seen.</param>
/// <param name="LookoutDrownedM">From this top on the lookout sees nothing.</param>
/// <param name="Table">From the lowest ground in view up.</param>
public sealed record DeckSweepAnswer(
    double? FirstSwallowedM, double? HalfSwallowedM, double? AllSwallowedM, double LookoutDrownedM, IReadOnlyList<DeckRowAnswer> Table)
{
    public static DeckSweepAnswer Of(DeckSweep sweep)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        return new DeckSweepAnswer(
            sweep.FirstSwallowed?.Metres, sweep.HalfSwallowed?.Metres, sweep.AllSwallowed?.Metres, sweep.Eye.Metres,
            [.. sweep.Table().Select(row => new DeckRowAnswer(row.Top.Metres, row.CrestShare, row.Islands, row.IsLookoutDrowned))]);
    }
}

/// <param name="CrestShare">Share of the columns with ridge whose crest still shows.</param>
/// <param name="Islands">Separate pieces of ridge that stand out.</param>
public sealed record DeckRowAnswer(double DeckTopM, double CrestShare, int Islands, bool LookoutDrowned);

/// <summary>The sun on the deck in view.</summary>
/// <param name="FirstSun">On any of it.</param>
/// <param name="HalfLit">On half of it, for the first time.</param>
/// <param name="HalfShaded">When half of it has lost the sun for the last time.</param>
/// <param name="InWindows">How flat the sun grazes it in the middle of each window.</param>
public sealed record DeckLightAnswer(string? FirstSun, string? HalfLit, string? HalfShaded, IReadOnlyList<GrazingSunAnswer> InWindows)
{
    public static DeckLightAnswer Of(DeckLight light, LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(light);
        ArgumentNullException.ThrowIfNull(forecast);
        return new DeckLightAnswer(
            CloudAnswer.Utc(light.FirstSun), CloudAnswer.Utc(light.HalfLit), CloudAnswer.Utc(light.HalfShaded),
            [.. forecast.Windows.Select(window => light.At(window.Middle, forecast.Plan.Conditions.Haze)).Select(sun => new GrazingSunAnswer(sun.Altitude.Degrees, sun.DirectLux))]);
    }
}

/// <param name="SunAltitudeDeg">Apparent, over the deck.</param>
/// <param name="DirectLux">The beam's light on the level deck where nothing shades it.</param>
public sealed record GrazingSunAnswer(double SunAltitudeDeg, double DirectLux);

/// <summary>A layer of cloud across the light of a window.</summary>
/// <param name="Window">The window's number, counted from 1.</param>
/// <param name="BearingDeg">From the ridge towards the sun.</param>
/// <param name="NearKm">From the ridge.</param>
/// <param name="CutS">Of the window's time, were the layer closed.</param>
/// <param name="Condition">What the light asks of the sky, as a sentence.</param>
public sealed record SunwardCutAnswer(CloudLevel Level, double Cover, int Window, double BearingDeg, double NearKm, double FarKm, double CutS, string Condition)
{
    public static SunwardCutAnswer Of(SunwardCut cut)
    {
        ArgumentNullException.ThrowIfNull(cut);
        return new SunwardCutAnswer(
            cut.Layer.Level, cut.Layer.Cover, cut.Window + 1, cut.Towards.Degrees, cut.Near.Kilometres, cut.Far.Kilometres, cut.Cut.TotalSeconds, cut.Condition);
    }
}
