using System.Diagnostics;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The programs of GDAL, where they are installed: another reader and writer of grids.</summary>
internal sealed class Gdal : INeed
{
    private Gdal()
    {
    }

    public static string Missing => "GDAL's programs are not installed";

    public static bool IsPresent { get; } = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => File.Exists(Path.Combine(folder, "gdal_translate")) && File.Exists(Path.Combine(folder, "gdallocationinfo")));

    /// <summary>What the program writes; fails the test where it does not end well.</summary>
    public static string Run(string program, string input, params ReadOnlySpan<string> arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        var (output, errors) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program} {string.Join(' ', start.ArgumentList)}: {errors.Result}");
        return output.Result;
    }
}
