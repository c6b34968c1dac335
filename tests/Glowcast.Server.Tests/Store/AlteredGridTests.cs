using System.Net;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Store;

public class AlteredGridTests
{
    [Fact]
    public async Task A_kept_grid_that_was_altered_on_the_disk_is_not_used_until_it_is_sent_anew()
    {
        await using var data = new DataOfATest();
        using var first = await data.StartAsync();
        var entry = await first.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        var relief = $"/api/grids/{entry["id"]}/hillshade";
        await data.StopAsync();
        // A digit of a height: the file can still be read.
        var path = Assert.Single(data.GridFiles);
        var bytes = await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken);
        bytes[^10] ^= 1;
        await File.WriteAllBytesAsync(path, bytes, TestContext.Current.CancellationToken);

        using var second = await data.StartAsync();
        var faults = await second.SendJsonAsync(HttpMethod.Get, relief).FaultsAsync();
        Assert.Contains("no longer what it was", faults["grids"], StringComparison.Ordinal);
        var plan = MadeValley.Plan();
        plan["grids"] = new JsonArray(entry["id"]!.GetValue<string>());
        Assert.Contains("grids", (await second.SendJsonAsync(HttpMethod.Post, "/api/forecasts", plan).FaultsAsync()).Keys);

        await second.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync();
        using var mended = await second.SendJsonAsync(HttpMethod.Get, relief);
        Assert.Equal(HttpStatusCode.OK, mended.StatusCode);
    }
}
