using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using SharpFuzz;

namespace Glowcast.Fuzz;

/// <summary>Instruments a copy of the program, and lets children try one target after another, so that one that dies takes nobody with it.</summary>
internal static class Supervisor
{
    /// <summary>How a child ends that is stuck with one input.</summary>
    public const int Stuck = 77;

    private const long MostMemory = 2L << 30;
    private static readonly string[] Instrumented = ["Glowcast.Engine.dll", "Glowcast.Server.dll", "BitMiracle.LibTiff.NET.dll", "BitMiracle.LibJpeg.NET.dll"];

    /// <param name="folder">Where corpus, finds and counts are kept from run to run.</param>
    /// <param name="slice">How long one child tries one target.</param>
    public static void Run(IReadOnlyList<Target> targets, string folder, TimeSpan time, TimeSpan slice)
    {
        var program = Instrument(Path.Combine(folder, "program"));
        var counts = Counts(folder);
        for (var clock = Stopwatch.StartNew(); clock.Elapsed < time;)
        {
            foreach (var target in targets)
            {
                if (clock.Elapsed > time) break;
                var executed = TryOnce(program, target, Path.Combine(folder, target.Name), slice);
                counts[target.Name] = counts.GetValueOrDefault(target.Name) + executed;
                File.WriteAllLines(Path.Combine(folder, "counts.tsv"), counts.Select(count => string.Create(CultureInfo.InvariantCulture, $"{count.Key}\t{count.Value}")));
            }
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{counts.Values.Sum()} executions in all"));
    }

    private static long TryOnce(string program, Target target, string folder, TimeSpan slice)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true };
        foreach (var argument in (string[])[program, "child", target.Name, folder, slice.TotalSeconds.ToString(CultureInfo.InvariantCulture)]) start.ArgumentList.Add(argument);
        start.Environment["DOTNET_GCHeapHardLimit"] = MostMemory.ToString("X", CultureInfo.InvariantCulture);
        using var child = Process.Start(start)!;
        var output = child.StandardOutput.ReadToEnd();
        child.WaitForExit();
        Console.Write(output);
        if (child.ExitCode == 0) return long.Parse(output.Split('\t')[1], CultureInfo.InvariantCulture);
        KeepCurrent(folder, child.ExitCode == Stuck ? "stuck" : $"died-{child.ExitCode}");
        return 0;
    }

    private static void KeepCurrent(string folder, string why)
    {
        var memory = File.ReadAllBytes(Path.Combine(folder, "current"));
        var input = memory.AsSpan(4, Math.Min(BitConverter.ToInt32(memory), memory.Length - 4));
        Console.Error.WriteLine($"{folder}: {why}");
        File.WriteAllBytes(Path.Combine(folder, "finds", $"{why}-{Convert.ToHexStringLower(SHA256.HashData(input))[..8]}"), input);
    }

    private static string Instrument(string folder)
    {
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        foreach (var file in Directory.EnumerateFiles(AppContext.BaseDirectory, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(folder, Path.GetRelativePath(AppContext.BaseDirectory, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
        foreach (var assembly in Instrumented) Fuzzer.Instrument(Path.Combine(folder, assembly), _ => true, Options.Value);
        return Path.Combine(folder, "Glowcast.Fuzz.dll");
    }

    private static SortedDictionary<string, long> Counts(string folder)
    {
        Directory.CreateDirectory(folder);
        var counts = new SortedDictionary<string, long>(StringComparer.Ordinal);
        var path = Path.Combine(folder, "counts.tsv");
        foreach (var line in File.Exists(path) ? File.ReadAllLines(path) : []) counts[line.Split('\t')[0]] = long.Parse(line.Split('\t')[1], CultureInfo.InvariantCulture);
        return counts;
    }
}
