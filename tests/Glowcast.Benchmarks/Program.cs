using BenchmarkDotNet.Running;
using Glowcast.Benchmarks;

// "against <tile.hgt>" prints CPU seconds for against-grass.sh, "season <plan.json>" what a year of days costs against charts;
// anything else goes to BenchmarkDotNet.
if (args is ["against", var tile]) AgainstGrass.Run(tile);
else if (args is ["season", var plan]) SeasonCost.Run(plan);
else BenchmarkSwitcher.FromAssembly(typeof(TerrainKernels).Assembly).Run(args);
