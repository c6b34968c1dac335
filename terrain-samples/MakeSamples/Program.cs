using System.Diagnostics;
using MakeSamples;

// Makes N46W032.hgt, an invented island with two mountain ranges, and demo-run.grib2, invented weather over it, in the folder named (default: this one).
// With --weather the weather alone.
var folder = args.FirstOrDefault(arg => !arg.StartsWith('-')) ?? ".";
var run = Path.Combine(folder, "demo-run.grib2");
Console.WriteLine($"{run}  {DemoRun.Write(run)} fields");
if (args.Contains("--weather")) return;
var clock = Stopwatch.StartNew();

var island = Orogeny.Raise(Say);
Say("late dome");
Dome.Lift(island);
Say("glaciers");
GlacierCarving.Carve(island);
Say("crags");
Crags.Add(island);
Say("gullies");
Gullies.Cut(island);
Say("lakes");
Lakes.Fill(island);

var path = Path.Combine(folder, "N46W032.hgt");
Console.WriteLine($"{path}  SHA-256 {HgtFile.Write(path, island)}");

void Say(string step) => Console.Error.WriteLine($"{clock.Elapsed.TotalSeconds,5:0.0} s  {step}");
