using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Takes made up by hundreds, sorted, and compared with the truth they were made from. More of them:
/// <c>GLOWCAST_RANDOM_TAKES</c>.</summary>
public class RandomTakeTests
{
    private static readonly int Takes = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_RANDOM_TAKES"), out var many) ? many : 200;

    [Theory]
    [InlineData(true, 0.98)]
    [InlineData(false, 0.95)]
    public void Sets_are_found_exactly_with_a_plan_and_no_broken_set_is_called_whole(bool markers, double atLeast)
    {
        var score = Sorted(Takes, markers, hasPlan: true);
        Assert.Empty(score.WronglyWhole);
        Assert.True(score.ExactTakes >= atLeast * Takes, $"{score}");
        // A judge that never calls a set whole is never wrong, and of no use.
        Assert.True(score.Whole >= 0.75 * score.Complete, $"{score}");
    }

    [Theory]
    [InlineData(true, 0.85)]
    [InlineData(false, 0.75)]
    public void Most_sets_are_found_without_a_plan_and_none_is_called_whole(bool markers, double atLeast)
    {
        var takes = Takes / 5;
        var score = Sorted(takes, markers, hasPlan: false);
        Assert.Equal(0, score.Whole);
        Assert.True(score.ExactTakes >= atLeast * takes, $"{score}");
    }

    private static TakeScore Sorted(int takes, bool markers, bool hasPlan)
    {
        var score = new TakeScore();
        for (var seed = 0; seed < takes; seed++)
        {
            var take = RandomTake.Of(seed, markers);
            score.Count(take, TakeSorter.Sort(take.Frames, hasPlan ? take.Clock : null, cancel: TestContext.Current.CancellationToken), seed);
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"markers {markers}, plan {hasPlan}: {score}");
        return score;
    }
}
