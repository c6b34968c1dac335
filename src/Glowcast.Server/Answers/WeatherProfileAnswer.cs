using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Field.Words;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>The air over a place as a model has it, and what the judge of soundings finds in it. Heights are above mean sea level.</summary>
/// <param name="Likelihood">Of a sea of cloud: a class, lowered where the hours of the files lie far apart.</param>
/// <param name="Run">When the run began.</param>
/// <param name="StepHours">Between the hours of the files about the instant; 0 for one of them.</param>
/// <param name="RunAgeHours">From the run to the instant.</param>
/// <param name="ModelGroundM">The ground of the model, which is not that of the valley.</param>
/// <param name="WidestGapM">Between levels of the lowest 2000 m.</param>
/// <param name="TooCoarse">For the top of a deck.</param>
public sealed record WeatherProfileAnswer(
    double LatitudeDeg, double LongitudeDeg, string At, string Centre, string Run, double RunAgeHours, double StepHours, double ModelGroundM,
    IReadOnlyList<ProfileLevelAnswer> Levels, Likelihood Likelihood, int Score, IReadOnlyList<DeckAnswer> Decks, IReadOnlyList<InversionAnswer> Inversions,
    IReadOnlyList<MoistLayerAnswer> MoistLayers, IReadOnlyList<string> Reasons, LookoutInCloudAnswer? Lookout, double? LowWindKt, double WidestGapM, bool TooCoarse,
    ModelCovers Covers, IReadOnlyList<string> Cautions)
{
    public static WeatherProfileAnswer Of(ModelProfile profile, Length? lookout)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var diagnosis = profile.Diagnosis;
        return new WeatherProfileAnswer(
            profile.Point.LatitudeDeg, profile.Point.LongitudeDeg, InstantPattern.General.Format(profile.At), ParameterNames.CentreOf(profile.Run.Centre),
            InstantPattern.General.Format(profile.Run.Reference), (profile.At - profile.Run.Reference).TotalHours, profile.Bracket.Step.TotalHours, profile.ModelGround.Metres,
            [.. diagnosis.Profile.Levels.Select(ProfileLevelAnswer.Of)], profile.Class, diagnosis.Score,
            [.. diagnosis.Decks.Select(DeckAnswer.Of)], [.. diagnosis.Inversions.Select(InversionAnswer.Of)], [.. diagnosis.MoistLayers.Select(MoistLayerAnswer.Of)],
            [.. diagnosis.Reasons.Select(reason => CloudWords.Reason(reason))], lookout is { } height ? LookoutInCloudAnswer.Of(diagnosis.LookoutAt(height)) : null,
            diagnosis.LowWindKt, profile.WidestGap.Metres, profile.IsCoarse, profile.Covers, [WeatherWords.Caution, CloudDiagnosis.Caution]);
    }
}
