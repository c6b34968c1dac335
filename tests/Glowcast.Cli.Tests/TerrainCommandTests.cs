namespace Glowcast.Cli.Tests;

public class TerrainCommandTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Fact]
    public async Task The_horizon_of_the_valley_is_the_spur()
    {
        var horizon = (await Outcome.Of("horizon", "--grid", valley.Grid, "--latitude", "46.1", "--longitude", "7.7", "--azimuth", "90", "--json")).Json;

        // The spur's highest post stands 4.45 km away and 865 m higher: 11.0°, of which 0.02° is what the earth falls away.
        Assert.Equal(10.98, horizon.GetProperty("horizonDeg").GetDouble(), 0.05);
        Assert.Equal(4450, horizon.GetProperty("distanceM").GetDouble(), 20.0);
        Assert.Equal("gridEdge", horizon.GetProperty("beyondGrid").GetProperty("assumed").GetString());
        Assert.True(double.IsFinite(horizon.GetProperty("beyondGrid").GetProperty("heightM").GetDouble()));
    }

    [Fact]
    public async Task Nothing_may_be_assumed_past_the_edge()
    {
        var horizon = (await Outcome.Of(
            "horizon", "--grid", valley.Grid, "--latitude", "46.1", "--longitude", "7.7", "--azimuth", "-270", "--beyond", "none", "--json")).Json;

        Assert.Equal(90, horizon.GetProperty("azimuthDeg").GetDouble());
        Assert.Equal("nothing", horizon.GetProperty("beyondGrid").GetProperty("assumed").GetString());
    }

    [Fact]
    public async Task An_eye_above_the_ground_sees_a_lower_horizon()
    {
        string[] line = ["horizon", "--grid", valley.Grid, "--latitude", "46.1", "--longitude", "7.7", "--azimuth", "90", "--json"];

        var low = (await Outcome.Of(line)).Json.GetProperty("horizonDeg").GetDouble();
        var high = (await Outcome.Of([.. line, "--eye", "100"])).Json.GetProperty("horizonDeg").GetDouble();

        // 100 m at 4.45 km.
        Assert.Equal(1.25, low - high, 0.1);
    }

    [Fact]
    public async Task The_crest_is_visible_from_the_lookout_and_what_lies_behind_it_is_not()
    {
        var crest = (await Outcome.Of("sight", "--grid", valley.Grid, "--from", MadeValley.Lookout, "--to", MadeValley.Crest, "--json")).Json;
        var behind = (await Outcome.Of("sight", "--grid", valley.Grid, "--from", MadeValley.Lookout, "--to", "46.1,7.55", "--json")).Json;

        Assert.True(crest.GetProperty("visible").GetBoolean());
        Assert.False(behind.GetProperty("visible").GetBoolean());
        Assert.True(behind.GetProperty("marginDeg").GetDouble() < 0);
        Assert.Equal(12_000, crest.GetProperty("distanceM").GetDouble(), 50.0);
        Assert.Equal(270, crest.GetProperty("bearingDeg").GetDouble(), 0.2);
        Assert.Equal(3.3, crest.GetProperty("apparentAltitudeDeg").GetDouble(), 0.2);
    }

    [Fact]
    public async Task A_skyline_has_a_column_for_each_step_of_the_span()
    {
        var skyline = (await Outcome.Of(
            "skyline", "--grid", valley.Grid, "--latitude", "46.1", "--longitude", "7.7584", "--span", "260..280", "--step", "0.5", "--json")).Json;

        var columns = skyline.GetProperty("columns").EnumerateArray().ToList();
        Assert.Equal(40, columns.Count);
        Assert.Equal(260.25, columns[0].GetProperty("bearingDeg").GetDouble(), 1e-9);
        Assert.All(columns, column =>
        {
            Assert.Equal(3.2, column.GetProperty("skylineDeg").GetDouble(), 0.3);
            Assert.Equal(12_100, column.GetProperty("distanceM").GetDouble(), 400.0);
            Assert.Equal(2180, column.GetProperty("heightM").GetDouble(), 40.0);
        });
    }

    [Fact]
    public async Task Grids_are_described()
    {
        var grid = (await Outcome.Of("grid", "info", valley.Grid, "--json")).Json;

        Assert.Equal("valley.asc", grid.GetProperty("name").GetString());
        Assert.Equal(81, grid.GetProperty("rows").GetInt32());
        Assert.Equal(201, grid.GetProperty("columns").GetInt32());
        Assert.Equal(0, grid.GetProperty("holes").GetInt32());
        Assert.Equal(600, grid.GetProperty("lowestM").GetDouble());
    }

    [Fact]
    public async Task Several_grids_are_joined()
    {
        // The posts of this one go on to the north of the valley, with one row between them missing.
        var north = valley.Write("north.asc", "ncols 3\nnrows 2\nxllcenter 7.5\nyllcenter 46.205\ncellsize 0.0025\n1 2 3\n4 5 6\n");

        var grid = (await Outcome.Of("grid", "info", valley.Grid, north, "--json")).Json;

        Assert.Equal(84, grid.GetProperty("rows").GetInt32());
        Assert.Equal((84 * 201) - (81 * 201) - 6, grid.GetProperty("holes").GetInt32());
    }
}
