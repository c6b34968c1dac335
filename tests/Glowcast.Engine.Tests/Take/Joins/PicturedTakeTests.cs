using Glowcast.Engine.Forecast;
using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Takes of picture files with real joins, of many kinds, sorted and compared with the truth. More of them: <c>GLOWCAST_PICTURED_TAKES</c>;
/// others: <c>GLOWCAST_PICTURED_TAKES_FROM</c>.</summary>
public class PicturedTakeTests
{
    private static readonly int FirstSeed = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_PICTURED_TAKES_FROM"), out var first) ? first : 0;
    private static readonly int Takes = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_PICTURED_TAKES"), out var many) ? many : 24;

    [Fact]
    public void By_its_plan_nothing_is_called_whole_that_cannot_be_stitched()
    {
        var (exact, told, whole, complete, wrong) = Sorted(take => take.Plan);
        Assert.Empty(wrong);
        Assert.True(exact >= 0.95 * told, $"{exact} of {told} takes exact");
        Assert.True(whole >= 0.8 * complete, $"{whole} of {complete} complete sets called whole");
    }

    [Theory]
    [InlineData(2, 1, false)]
    [InlineData(-2, 1, false)]
    [InlineData(0, 0.5, true)]
    public void By_a_plan_that_is_not_its_own_nothing_is_called_whole(int moreColumns, double focal, bool turned) =>
        Assert.Equal(0, Sorted(take => take.Altered(moreColumns, focal, turned)).Whole);

    [Fact]
    public void Without_a_plan_the_sets_are_found_and_none_is_called_whole()
    {
        var (exact, told, whole, _, _) = Sorted(_ => null);
        Assert.Equal(0, whole);
        Assert.True(exact >= 0.9 * told, $"{exact} of {told} takes exact");
    }

    private static (int Exact, int Told, int Whole, int Complete, IReadOnlyList<string> Wrong) Sorted(Func<PicturedTake, Plan?> planOf)
    {
        var cancel = TestContext.Current.CancellationToken;
        var (exact, told, whole, complete, wrong) = (0, 0, 0, 0, new List<string>());
        foreach (var (seed, take, sorted) in Enumerable.Range(FirstSeed, Takes).AsParallel().AsOrdered().WithCancellation(cancel).Select(seed =>
        {
            var take = PicturedKinds.Of(seed);
            return (seed, take, TakeSorter.Sort(Read(take), planOf(take) is { } plan ? TakePlan.Of(PlannedSet.Of(plan)) : null, cameraClock: null, cancel: cancel));
        }))
        {
            var truth = take.Sets.Select(names => string.Join(' ', names)).ToList();
            var found = sorted.Sets.Select(set => (Set: set, Names: string.Join(' ', set.Frames.Select(frame => frame.Frame.Name)))).ToList();
            var whatIsWhole = truth.Where((_, i) => take.Complete[i]).ToHashSet();
            if (take.IsTold) (told, exact) = (told + 1, exact + (found.Count == truth.Count && truth.TrueForAll(names => found.Exists(set => set.Names == names)) ? 1 : 0));
            complete += whatIsWhole.Count;
            foreach (var (set, names) in found.Where(entry => entry.Set.Wholeness == Wholeness.Whole))
            {
                whole++;
                if (!whatIsWhole.Contains(names)) wrong.Add($"{take.Kind} {seed}: {set.First.Name} to {set.Last.Name}");
            }
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"{exact} of {told} takes exact, {whole} of {complete} complete sets called whole, {wrong.Count} wrongly");
        return (exact, told, whole, complete, wrong);
    }

    private static List<ShotFrame> Read(PicturedTake take) => take.Files.Select(file =>
    {
        using var stream = new MemoryStream(file.Bytes);
        return FrameReader.Read(stream, file.Name);
    }).ToList();
}
