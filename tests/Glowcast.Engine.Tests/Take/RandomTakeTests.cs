using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Takes made up by hundreds, sorted, and compared with the truth they were made from.</summary>
public class RandomTakeTests
{
    private static readonly int Takes = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_RANDOM_TAKES"), out var many) ? many : 200;

    [Theory]
    [InlineData(true, true, 0.98)]
    [InlineData(false, true, 0.95)]
    [InlineData(true, false, 0.98)]
    [InlineData(false, false, 0.95)]
    public void Sets_are_found_exactly_and_no_broken_set_is_called_whole(bool markers, bool hasPlan, double atLeast)
    {
        var (exact, sets, exactSets, whole, complete) = (0, 0, 0, 0, 0);
        var wrong = new List<string>();
        for (var seed = 0; seed < Takes; seed++)
        {
            var take = RandomTake.Of(seed, markers);
            var sorted = TakeSorter.Sort(take.Frames, hasPlan ? take.Clock : null, cancel: TestContext.Current.CancellationToken);
            var found = sorted.Sets.Select(set => string.Join(' ', set.Frames.Select(frame => frame.Frame.Name))).ToHashSet();
            var truth = take.Sets.Select(set => string.Join(' ', set)).ToList();
            var right = truth.Count(found.Contains);
            (sets, exactSets) = (sets + truth.Count, exactSets + right);
            if (right == truth.Count && found.Count == truth.Count) exact++;
            else wrong.Add($"{seed}");
            var completeSets = truth.Where((_, i) => take.Complete[i]).ToHashSet();
            complete += completeSets.Count;
            foreach (var set in sorted.Sets.Where(set => set.Wholeness == Wholeness.Whole))
            {
                whole++;
                Assert.True(completeSets.Contains(string.Join(' ', set.Frames.Select(frame => frame.Frame.Name))), $"take {seed}: {set.First.Name} to {set.Last.Name} is called whole");
            }
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"markers {markers} plan {hasPlan}: takes {exact}/{Takes}, sets {exactSets}/{sets}, whole {whole} of {complete}; wrong {string.Join(' ', wrong)}");
        Assert.True(exact >= atLeast * Takes, $"{exact} of {Takes} takes sorted exactly");
        if (hasPlan) Assert.True(whole >= 0.7 * complete, $"{whole} of {complete} complete sets called whole");
    }
}
