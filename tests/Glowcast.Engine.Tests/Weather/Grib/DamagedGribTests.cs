using System.Globalization;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>GRIB files of every packing and scan order, damaged at random: each field is read or refused with a reason, and none takes much memory.</summary>
/// <remarks>The environment variable GLOWCAST_DAMAGED_FILES sets how many; without it a few hundred.</remarks>
public class DamagedGribTests
{
    private const int UsualCount = 600;
    private const long MostBytesAFile = 256L << 20;

    [Fact]
    public void A_damaged_file_is_read_or_refused()
    {
        var sound = Directory.EnumerateFiles(ReferenceData.Locate("weather"), "*.grib2", SearchOption.AllDirectories)
            .Order(StringComparer.Ordinal).Where(file => new FileInfo(file).Length < 12_000).Select(File.ReadAllBytes).ToArray();
        var count = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_DAMAGED_FILES"), CultureInfo.InvariantCulture, out var asked) ? asked : UsualCount;
        var (read, refused, greediest) = (0, 0, 0L);
        for (var seed = 0; seed < count; seed++)
        {
            var bytes = Damaged(sound[seed % sound.Length], new Random(seed));
            var before = GC.GetAllocatedBytesForCurrentThread();
            try
            {
                foreach (var field in GribFiles.Set(GribSource.InMemory("damaged", bytes)).Fields)
                {
                    var values = field.Values();
                    _ = field.Grid.ValueAt(values, GeoPoint.FromDegrees(46, 7));
                    _ = field.Grid.PointAt(field.Grid.Ni - 1, field.Grid.Nj - 1);
                }
                read++;
            }
            catch (BadInputException)
            {
                refused++;
            }
            catch (Exception fault)
            {
                Assert.Fail($"seed {seed}: {fault}");
            }
            greediest = Math.Max(greediest, GC.GetAllocatedBytesForCurrentThread() - before);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{read} read, {refused} refused, at most {greediest >> 20} MiB for one");
        Assert.True(refused > 0 && read > 0);
        Assert.True(greediest < MostBytesAFile, $"one file took {greediest >> 20} MiB");
    }

    private static byte[] Damaged(byte[] sound, Random random)
    {
        var bytes = (byte[])sound.Clone();
        var around = random.Next(bytes.Length);
        for (var change = random.Next(6); change >= 0; change--)
        {
            // Headers decide most, and stand in front.
            var at = random.Next(3) switch { 0 => random.Next(bytes.Length), 1 => random.Next(Math.Min(260, bytes.Length)), _ => Math.Min(around + random.Next(8), bytes.Length - 1) };
            bytes[at] = random.Next(3) switch { 0 => (byte)random.Next(256), 1 => (byte)(bytes[at] ^ (1 << random.Next(8))), _ => (byte)(random.Next(2) * 255) };
        }
        return random.Next(12) switch { 0 => bytes[..random.Next(bytes.Length)], 1 => [.. bytes, .. bytes[random.Next(bytes.Length)..]], _ => bytes };
    }
}
