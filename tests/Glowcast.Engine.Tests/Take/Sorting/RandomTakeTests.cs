using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Takes made up, sorted, and compared with the truth they were made from. The long run has 200 of them:
/// <c>GLOWCAST_RANDOM_TAKES</c>; others: <c>GLOWCAST_RANDOM_TAKES_FROM</c>.</summary>
public class RandomTakeTests
{
    private static readonly int FirstSeed = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_RANDOM_TAKES_FROM"), out var first) ? first : 0;
    private static readonly int Takes = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_RANDOM_TAKES"), out var many) ? many : 40;

    [Theory]
    [InlineData(true, 0.98)]
    [InlineData(false, 0.95)]
    public void Sets_are_found_exactly_with_a_plan_and_no_broken_set_is_called_whole(bool markers, double atLeast)
    {
        var score = Sorted(Takes, markers, hasPlan: true);
        Assert.Empty(score.WronglyWhole);
        Assert.True(score.ExactTakes >= Math.Floor(atLeast * Takes), $"{score}");
        // A judge that never calls a set whole is never wrong, and of no use.
        Assert.True(score.Whole >= 0.75 * score.Complete, $"{score}");
    }

    [Theory]
    [InlineData(true, 0.98)]
    [InlineData(false, 0.95)]
    public void Sets_are_found_exactly_without_a_plan_and_none_is_called_whole(bool markers, double atLeast)
    {
        var takes = Takes / 2;
        var score = Sorted(takes, markers, hasPlan: false);
        Assert.Equal(0, score.Whole);
        Assert.True(score.ExactTakes >= Math.Floor(atLeast * takes), $"{score}");
    }

    private static TakeScore Sorted(int takes, bool markers, bool hasPlan)
    {
        var cancel = TestContext.Current.CancellationToken;
        var sorted = Enumerable.Range(FirstSeed, takes).AsParallel().AsOrdered().WithCancellation(cancel).Select(seed =>
        {
            var take = RandomTake.Of(seed, markers);
            return (Seed: seed, Take: take, Sorted: TakeSorter.Sort(take.Frames, hasPlan ? take.Clock : null, cancel: cancel));
        });
        var score = new TakeScore();
        foreach (var (seed, take, found) in sorted) score.Count(take, found, seed);
        TestContext.Current.TestOutputHelper!.WriteLine($"markers {markers}, plan {hasPlan}: {score}");
        return score;
    }
}
