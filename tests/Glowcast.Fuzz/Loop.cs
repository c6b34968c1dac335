using System.Diagnostics;
using System.Globalization;
using System.IO.MemoryMappedFiles;
using System.Security.Cryptography;
using Glowcast.Engine.Measures;

namespace Glowcast.Fuzz;

/// <summary>Tries one input after another on one target, and keeps those that take new branches and those that break something.</summary>
internal sealed class Loop : IDisposable
{
    /// <summary>Of the processor, for one input.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(5);

    private readonly Target target;
    private readonly string folder;
    private readonly Coverage coverage = new();
    private readonly Random random = new();
    private readonly List<byte[]> corpus = [];
    private readonly HashSet<string> found = [];
    private readonly MemoryMappedFile current;
    private readonly MemoryMappedViewAccessor view;
    private long startedTicks;

    /// <param name="folder">Of the corpus and the finds.</param>
    public Loop(Target target, string folder)
    {
        (this.target, this.folder) = (target, folder);
        Directory.CreateDirectory(Path.Combine(folder, "corpus"));
        Directory.CreateDirectory(Path.Combine(folder, "finds"));
        current = MemoryMappedFile.CreateFromFile(Path.Combine(folder, "current"), FileMode.Create, null, (1 << 20) + 4);
        view = current.CreateViewAccessor();
    }

    public long Executions { get; private set; }

    public string Summary => string.Create(CultureInfo.InvariantCulture, $"{target.Name}\t{Executions}\t{corpus.Count}\t{coverage.Branches}\t{found.Count}");

    public void Run(TimeSpan time)
    {
        using var watch = new Timer(_ => EndIfStuck(), null, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(1));
        var words = target.Words.Select(System.Text.Encoding.Latin1.GetBytes).ToList();
        var mutator = new Mutator(random, words, target.MostBytes);
        foreach (var input in target.Seeds().Concat(Directory.EnumerateFiles(Path.Combine(folder, "corpus")).Order(StringComparer.Ordinal).Select(File.ReadAllBytes)))
            Try(input, isSeed: true);
        for (var clock = Stopwatch.StartNew(); clock.Elapsed < time;)
        {
            // The newest are the most promising.
            var at = random.Next(3) == 0 ? corpus.Count - 1 - random.Next(Math.Min(corpus.Count, 20)) : random.Next(corpus.Count);
            Try(mutator.Changed(corpus[at], corpus[random.Next(corpus.Count)]), isSeed: false);
        }
    }

    public void Dispose()
    {
        view.Dispose();
        current.Dispose();
    }

    private void Try(byte[] input, bool isSeed)
    {
        view.Write(0, input.Length);
        view.WriteArray(4, input, 0, Math.Min(input.Length, 1 << 20));
        coverage.Clear();
        Volatile.Write(ref startedTicks, Environment.CpuUsage.TotalTime.Ticks);
        var before = GC.GetAllocatedBytesForCurrentThread();
        try
        {
            target.Read(input);
        }
        catch (BadInputException)
        {
        }
        catch (Exception fault)
        {
            Keep(input, fault.GetType().Name + Frame(fault), fault.ToString());
        }
        if (GC.GetAllocatedBytesForCurrentThread() - before is var took && took > target.MostAllocated) Keep(input, "memory", $"{took >> 20} MiB");
        Volatile.Write(ref startedTicks, 0);
        Executions++;
        if (!coverage.Note() && !(isSeed && corpus.Count == 0)) return;
        corpus.Add(input);
        if (!isSeed) File.WriteAllBytes(Path.Combine(folder, "corpus", NameOf(input)), input);
    }

    private static string Frame(Exception fault) =>
        new StackTrace(fault).GetFrame(0)?.GetMethod() is { } method ? $"-{method.DeclaringType?.Name}-{method.Name}" : "";

    private void Keep(byte[] input, string kind, string what)
    {
        if (!found.Add(kind)) return;
        var path = Path.Combine(folder, "finds", string.Concat(kind.Select(letter => char.IsLetterOrDigit(letter) || letter == '-' ? letter : '_')));
        if (File.Exists(path)) return;
        File.WriteAllBytes(path, input);
        File.WriteAllText(path + ".txt", what);
        Console.Error.WriteLine($"{target.Name}: {kind}");
    }

    private void EndIfStuck()
    {
        var started = Volatile.Read(ref startedTicks);
        if (started == 0 || Environment.CpuUsage.TotalTime.Ticks - started < Longest.Ticks) return;
        Environment.Exit(Supervisor.Stuck);
    }

    private static string NameOf(byte[] input) => Convert.ToHexStringLower(SHA256.HashData(input))[..16];
}
