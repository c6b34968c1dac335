using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class HorizonShelfTests
{
    private static readonly ElevationGrid Ground = RoughGround.Of(seed: 2, size: 121);

    [Fact]
    public void The_same_points_over_the_same_ground_find_their_table_again()
    {
        var shelf = new HorizonShelf();
        var first = Horizons(shelf, Ground, 40);
        Assert.Same(first, Horizons(shelf, Ground, 40));
        // Read once more from elsewhere, it is the same ground.
        Assert.Same(first, Horizons(shelf, new ElevationGrid(Ground.Posts, [.. Ground.Heights], "another name"), 40));
    }

    [Fact]
    public void Whatever_shapes_a_horizon_is_part_of_the_key()
    {
        float[] raised = [.. Ground.Heights];
        raised[5000] += 1;
        var posts = Ground.Posts;
        string[] keys =
        [
            Key(Ground, SightModel.Usual, 40),
            Key(Ground, SightModel.Usual, 41),
            Key(Ground, SightModel.Usual with { RefractionK = 0.14 }, 40),
            Key(Ground, SightModel.Usual with { BeyondGrid = null }, 40),
            Key(new ElevationGrid(posts, raised, "raised"), SightModel.Usual, 40),
            Key(new ElevationGrid(new GridPosts(posts.Rows, posts.Columns, posts.NorthDeg + 1, posts.WestDeg, 1 / 1200.0, 1 / 1200.0), [.. Ground.Heights], "moved"), SightModel.Usual, 40),
        ];
        Assert.Equal(keys.Length, keys.Distinct().Count());
    }

    [Fact]
    public void When_it_is_full_the_table_not_used_for_longest_goes()
    {
        var bytes = HorizonTable.Of(Points(Ground, 40), Ground, SightModel.Usual, cancel: TestContext.Current.CancellationToken).Bytes;
        var shelf = new HorizonShelf((2 * bytes) + 1);
        var (first, second) = (Horizons(shelf, Ground, 40), Horizons(shelf, Ground, 50));
        Assert.Same(first, Horizons(shelf, Ground, 40));
        Horizons(shelf, Ground, 60);
        Assert.Same(first, Horizons(shelf, Ground, 40));
        Assert.NotSame(second, Horizons(shelf, Ground, 50));
    }

    [Fact]
    public void A_table_too_large_to_keep_beside_others_is_still_kept_alone()
    {
        var shelf = new HorizonShelf(1);
        Assert.Same(Horizons(shelf, Ground, 40), Horizons(shelf, Ground, 40));
    }

    [Fact]
    public void What_its_store_has_is_not_worked_out_again()
    {
        var store = new MadeStore();
        var table = Horizons(new HorizonShelf(store: store), Ground, 40);
        var shelf = new HorizonShelf(store: store);
        Assert.Equal(table.Values, Horizons(shelf, Ground, 40).Values);
        Assert.Equal(0, shelf.WorkedOut);
        Horizons(shelf, Ground, 41);
        Assert.Equal(1, shelf.WorkedOut);
    }

    [Fact]
    public void Damaged_bytes_of_its_store_are_put_right()
    {
        var store = new MadeStore();
        var table = Horizons(new HorizonShelf(store: store), Ground, 40);
        store.Kept.Values.Single()[^1] ^= 1;
        var shelf = new HorizonShelf(store: store);
        Assert.Equal(table.Values, Horizons(shelf, Ground, 40).Values);
        Assert.Equal(1, shelf.WorkedOut);
        Assert.Equal(table.Values, HorizonTableBytes.Read(store.Kept.Values.Single())!.Values);
    }

    private static HorizonTable Horizons(HorizonShelf shelf, ElevationGrid grid, int at) =>
        shelf.Horizons(Points(grid, at), grid, SightModel.Usual, cancel: TestContext.Current.CancellationToken);

    private static string Key(ElevationGrid grid, SightModel model, int at) => HorizonShelf.KeyOf(Points(Ground, at), grid, model);

    private static Place[] Points(ElevationGrid grid, int at) => [new(grid.Posts.ToPoint(at, at), Length.FromMetres(900)), new(grid.Posts.ToPoint(at + 5, at), Length.FromMetres(950))];

    private sealed class MadeStore : IHorizonStore
    {
        public Dictionary<string, byte[]> Kept { get; } = [];

        public byte[]? Find(string key) => Kept.GetValueOrDefault(key);

        public void Keep(string key, byte[] table) => Kept[key] = table;
    }
}
