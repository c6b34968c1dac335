using System.Diagnostics;

namespace Glowcast.Field.Tests.Exports;

/// <summary>GDAL's reader of vector files, where it is installed (Debian: gdal-bin).</summary>
internal sealed class Ogr : INeed
{
    private Ogr()
    {
    }

    public static string Missing => "no ogrinfo on this machine";

    public static bool IsPresent { get; } = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, "ogrinfo")));

    /// <summary>What it says of a file; fails where it warns of anything.</summary>
    public static async Task<string> ReadAsync(byte[] bytes, string extension)
    {
        var file = Path.Combine(Path.GetTempPath(), $"glowcast-{Guid.NewGuid():N}{extension}");
        await File.WriteAllBytesAsync(file, bytes, TestContext.Current.CancellationToken);
        try
        {
            using var reader = Process.Start(new ProcessStartInfo("ogrinfo", ["-ro", "-al", file]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            var complaints = reader.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            var text = await reader.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
            await reader.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.True(reader.ExitCode == 0 && (await complaints).Length == 0, await complaints);
            return text;
        }
        finally
        {
            File.Delete(file);
        }
    }
}
