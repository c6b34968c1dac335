using System.Diagnostics;
using System.Text;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Writes EXIF with a program that is not ours: exiftool (Debian: libimage-exiftool-perl).</summary>
internal sealed class Exiftool : INeed
{
    private Exiftool()
    {
    }

    public static string Missing => "no exiftool on this machine (Debian: libimage-exiftool-perl)";

    public static bool IsPresent { get; } = Runs();

    /// <summary>Writes tags, named as exiftool does (<c>EXIF:ISO=100</c>), into files that are there, all in one run.</summary>
    public static void Write(IEnumerable<(string Path, IEnumerable<string> Tags)> files, string folder)
    {
        var orders = new StringBuilder();
        foreach (var (path, tags) in files)
        {
            foreach (var tag in tags) orders.Append('-').AppendLine(tag);
            orders.AppendLine("-overwrite_original").AppendLine("-q").AppendLine(path).AppendLine("-execute");
        }
        var orderFile = Path.Combine(folder, "exiftool-orders.txt");
        File.WriteAllText(orderFile, orders.ToString());
        var (exit, error) = Run("-@", orderFile);
        File.Delete(orderFile);
        Assert.True(exit == 0, error);
    }

    private static bool Runs()
    {
        try
        {
            return Run("-ver").Exit == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }

    private static (int Exit, string Error) Run(params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("exiftool", arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, error + output.Result);
    }
}
