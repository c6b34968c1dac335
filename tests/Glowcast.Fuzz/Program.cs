using System.Globalization;
using Glowcast.Fuzz;

// run FOLDER MINUTES [TARGET …]   fuzzes the targets in turn; corpus, finds and counts stay in the folder
// replay TARGET FILE …            tries single inputs, without instruments
switch (args)
{
    case ["run", var folder, var minutes, .. var names]:
        Supervisor.Run(
            names.Length == 0 ? Targets.All : [.. Targets.All.Where(target => names.Contains(target.Name))],
            Path.GetFullPath(folder), TimeSpan.FromMinutes(double.Parse(minutes, CultureInfo.InvariantCulture)), TimeSpan.FromSeconds(20));
        return 0;
    case ["child", var name, var folder, var seconds]:
        using (var loop = new Loop(Targets.Of(name), folder))
        {
            loop.Run(TimeSpan.FromSeconds(double.Parse(seconds, CultureInfo.InvariantCulture)));
            Console.WriteLine(loop.Summary);
        }
        return 0;
    case ["replay", var name, .. var files]:
        foreach (var file in files)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            var clock = System.Diagnostics.Stopwatch.StartNew();
            try
            {
                Targets.Of(name).Read(File.ReadAllBytes(file));
                Console.WriteLine($"{file}: read");
            }
            catch (Exception fault)
            {
                Console.WriteLine($"{file}: {fault}");
            }
            Console.WriteLine($"  {clock.ElapsedMilliseconds} ms, {(GC.GetAllocatedBytesForCurrentThread() - before) >> 20} MiB");
        }
        return 0;
    default:
        Console.Error.WriteLine($"run FOLDER MINUTES [TARGET …] | replay TARGET FILE …   targets: {string.Join(", ", Targets.All.Select(target => target.Name))}");
        return 2;
}
