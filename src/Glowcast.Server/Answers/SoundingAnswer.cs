using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Field.Words;

namespace Glowcast.Server.Answers;

/// <summary>What a sounding tells of a sea of cloud. Heights are above mean sea level.</summary>
/// <param name="Likelihood">Of a sea of cloud: a class, lowered for a profile from far off or long ago.</param>
/// <param name="Reasons">Sentences; each names the threshold it rests on.</param>
/// <param name="Lookout">Null where no height was given.</param>
/// <param name="Cleaned">What had to be left out or put right; empty for a sound report.</param>
/// <param name="Gaps">Where a deck would not show.</param>
public sealed record SoundingAnswer(
    SoundingSourceAnswer Source, SurfaceAnswer Surface, IReadOnlyList<InversionAnswer> Inversions, IReadOnlyList<MoistLayerAnswer> MoistLayers,
    IReadOnlyList<DeckAnswer> Decks, Likelihood Likelihood, int Score, IReadOnlyList<string> Reasons, LookoutInCloudAnswer? Lookout, BurnOffAnswer? BurnOff,
    IReadOnlyList<string> Cleaned, IReadOnlyList<string> Gaps, IReadOnlyList<string> Cautions)
{
    /// <summary>The same with feet and miles.</summary>
    public required IReadOnlyList<string> ReasonsImperial { get; init; }

    /// <summary>The cleaned levels, up to where moist layers are looked for.</summary>
    public required IReadOnlyList<ProfileLevelAnswer> Levels { get; init; }

    /// <param name="lookoutHeight">Null where it is not known.</param>
    public static SoundingAnswer Of(CloudDiagnosis diagnosis, ProfileReach reach, Length? lookoutHeight)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        return new SoundingAnswer(
            SoundingSourceAnswer.Of(diagnosis.Profile.Sounding, reach),
            SurfaceAnswer.Of(diagnosis),
            [.. diagnosis.Inversions.Select(InversionAnswer.Of)],
            [.. diagnosis.MoistLayers.Select(MoistLayerAnswer.Of)],
            [.. diagnosis.Decks.Select(DeckAnswer.Of)],
            diagnosis.ClassAt(reach), diagnosis.Score, CloudWords.Reasons(diagnosis, reach),
            lookoutHeight is { } height ? LookoutInCloudAnswer.Of(diagnosis.LookoutAt(height)) : null,
            BurnOffAnswer.Of(diagnosis.BurnOff),
            diagnosis.Profile.Cleaned, diagnosis.Profile.Gaps, [CloudDiagnosis.Caution])
        {
            ReasonsImperial = CloudWords.Reasons(diagnosis, reach, UnitSystem.Imperial),
            Levels = [.. diagnosis.Profile.Levels.TakeWhile(level => level.HeightM <= MoistLayerSearch.HighestM).Select(ProfileLevelAnswer.Of)],
        };
    }
}

public sealed record ProfileLevelAnswer(double HeightM, double PressureHPa, double TemperatureC, double DewPointC, double? WindFromDeg, double? WindKt)
{
    public static ProfileLevelAnswer Of(ProfileLevel level) =>
        new(level.HeightM, level.PressureHPa, level.TemperatureC, level.DewPointC, level.WindFromDeg, level.WindKt);
}

/// <summary>Where a sounding is from.</summary>
/// <param name="At">Null where the report has no full date.</param>
/// <param name="DayOfMonth">With <paramref name="HourUtc"/>, where that is all it says.</param>
/// <param name="DistanceKm">To the lookout; null where either place is not known.</param>
/// <param name="AgeH">From the time asked for; null where either time is not known.</param>
public sealed record SoundingSourceAnswer(
    string Format, string? Station, string? At, int? DayOfMonth, int? HourUtc, double? LatitudeDeg, double? LongitudeDeg, double? DistanceKm, double? AgeH)
{
    public static SoundingSourceAnswer Of(Sounding sounding, ProfileReach reach)
    {
        ArgumentNullException.ThrowIfNull(sounding);
        ArgumentNullException.ThrowIfNull(reach);
        return new SoundingSourceAnswer(
            sounding.Format, sounding.Station, sounding.At is { } at ? Moments.Utc(at) : null, sounding.DayAndHour?.Day, sounding.DayAndHour?.Hour,
            sounding.Place?.LatitudeDeg, sounding.Place?.LongitudeDeg, reach.Distance?.Kilometres, reach.Age?.TotalHours);
    }
}

/// <summary>The lowest level, and what follows from it.</summary>
/// <param name="CondensationM">Where the ground's air would become saturated when lifted.</param>
/// <param name="LowWindKt">Mean of the lowest 300 m.</param>
public sealed record SurfaceAnswer(
    double HeightM, double PressureHPa, double TemperatureC, double DewPointC, double? WindFromDeg, double? WindKt, double CondensationM, double? LowWindKt)
{
    public static SurfaceAnswer Of(CloudDiagnosis diagnosis)
    {
        ArgumentNullException.ThrowIfNull(diagnosis);
        var surface = diagnosis.Profile.Surface;
        return new SurfaceAnswer(
            surface.HeightM, surface.PressureHPa, surface.TemperatureC, surface.DewPointC, surface.WindFromDeg, surface.WindKt,
            surface.HeightM + diagnosis.LiftedCondensation.HeightM, diagnosis.LowWindKt);
    }
}

public sealed record InversionAnswer(
    InversionType Type, InversionOrigin Origin, double BaseM, double TopM, double DepthM, double BaseTemperatureC, double TopTemperatureC, double StrengthC)
{
    public static InversionAnswer Of(Inversion inversion)
    {
        ArgumentNullException.ThrowIfNull(inversion);
        return new InversionAnswer(
            inversion.Type, inversion.Origin, inversion.Base.Metres, inversion.Top.Metres, inversion.Depth.Metres,
            inversion.BaseLevel.TemperatureC, inversion.TopLevel.TemperatureC, inversion.StrengthC);
    }
}

/// <param name="SaturatedFromM">Null where it is nowhere saturated.</param>
/// <param name="OpenTop">It may go on above 6000 m, or above the last level.</param>
public sealed record MoistLayerAnswer(double BaseM, double TopM, double LeastDepressionC, double? SaturatedFromM, bool AtGround, bool OpenTop)
{
    public static MoistLayerAnswer Of(MoistLayer layer)
    {
        ArgumentNullException.ThrowIfNull(layer);
        return new MoistLayerAnswer(
            layer.Base.Metres, layer.Top.Metres, layer.LeastDepressionC, layer.SaturatedFrom?.Metres, layer.IsAtGround, layer.IsOpen);
    }
}

/// <param name="TopLowM">The low estimate of its top.</param>
/// <param name="TopHighM">The high estimate.</param>
public sealed record DeckAnswer(DeckKind Kind, double BaseM, double TopLowM, double TopHighM, double ThicknessM, double LeastDepressionC, double? SaturatedFromM)
{
    public static DeckAnswer Of(CloudDeck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return new DeckAnswer(
            deck.Kind, deck.Base.Metres, deck.TopLow.Metres, deck.TopHigh.Metres, deck.Layer.Thickness.Metres, deck.Layer.LeastDepressionC, deck.Layer.SaturatedFrom?.Metres);
    }
}

/// <summary>The lookout against the lowest deck.</summary>
/// <param name="SentenceImperial">The same with feet.</param>
public sealed record LookoutInCloudAnswer(double HeightM, LookoutVerdict Verdict, string Sentence, string SentenceImperial)
{
    public static LookoutInCloudAnswer Of(LookoutInCloud lookout)
    {
        ArgumentNullException.ThrowIfNull(lookout);
        return new LookoutInCloudAnswer(lookout.Height.Metres, lookout.Verdict, CloudWords.Lookout(lookout), CloudWords.Lookout(lookout, UnitSystem.Imperial));
    }
}

/// <summary>Hours of sun on the deck until it clears.</summary>
public sealed record BurnOffAnswer(double ClearingTemperatureC, double HeatMJPerM2, double EarliestHours, double MiddleHours, double LatestHours, string Sentence)
{
    public static BurnOffAnswer? Of(BurnOff? burnOff) => burnOff is null
        ? null
        : new BurnOffAnswer(burnOff.ClearingTemperatureC, burnOff.HeatMJPerM2, burnOff.EarliestHours, burnOff.MiddleHours, burnOff.LatestHours, burnOff.Sentence);
}
