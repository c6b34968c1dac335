using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class HorizonTableBytesTests
{
    private static readonly Lazy<HorizonTable> Table = new(() =>
    {
        var grid = RoughGround.Of(seed: 21, size: 161);
        var points = Enumerable.Range(20, 100).Select(i => new Place(grid.Posts.ToPoint(i, 80), grid.HeightAt(grid.Posts.ToPoint(i, 80))!.Value)).ToList();
        return HorizonTable.Of(points, grid, SightModel.Usual);
    });

    [Fact]
    public void A_table_comes_back_as_it_was_and_takes_less_room()
    {
        var bytes = HorizonTableBytes.Write(Table.Value);
        var back = HorizonTableBytes.Read(bytes)!;
        Assert.Equal(Table.Value.Values, back.Values);
        for (var azimuth = 0.1; azimuth < 6.28; azimuth += 0.1) Assert.Equal(Table.Value.AirlessRadAt(7, azimuth), back.AirlessRadAt(7, azimuth));
        Assert.True(bytes.Length < Table.Value.Bytes, $"{bytes.Length} of {Table.Value.Bytes}");
    }

    [Fact]
    public void A_table_of_another_version_is_not_used()
    {
        var bytes = HorizonTableBytes.Write(Table.Value);
        bytes[0]++;
        Assert.Null(HorizonTableBytes.Read(bytes));
    }

    [Fact]
    public void Damaged_bytes_are_refused()
    {
        var whole = HorizonTableBytes.Write(Table.Value);
        byte[] otherCount = [.. whole];
        otherCount[4]++;
        byte[] hugeCount = [.. whole];
        hugeCount[7] = 0x7f;
        byte[] noLatitude = [.. whole];
        Array.Fill<byte>(noLatitude, 0xff, 8, 8);
        byte[] otherBit = [.. whole];
        otherBit[^9] ^= 1;
        foreach (var bytes in (byte[][])[[], whole[..10], whole[..(whole.Length / 2)], otherCount, hugeCount, noLatitude, otherBit])
            Assert.Throws<InvalidDataException>(() => HorizonTableBytes.Read(bytes));
    }
}
