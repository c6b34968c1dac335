using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>The moment that came nearest to a window, on a day without one.</summary>
/// <param name="LitShare">Share of the ridge's columns lit then.</param>
/// <param name="LitShareMissing">What it lacks of the share asked for.</param>
/// <param name="ValleyShareTooMuch">By what the lit share of the valley is over the one allowed.</param>
/// <param name="BestLitShareInShade">The most ridge lit while the valley is shaded enough; null where it never is.</param>
public sealed record NearestMissAnswer(
    string At, string? AtLocal, double LitShare, double? ValleyShare, double LitShareMissing, double ValleyShareTooMuch, double? BestLitShareInShade)
{
    public static NearestMissAnswer? Of(NearestMiss? miss, DateTimeZone? zone) => miss is null ? null : new NearestMissAnswer(
        Moments.Utc(miss.At), Moments.Local(miss.At, zone), miss.RidgeShare, miss.ValleyShare, miss.RidgeMissing, miss.ValleyTooMuch, miss.BestRidgeInShade);
}
