using BenchmarkDotNet.Running;
using Glowcast.Benchmarks;

// "against <tile.hgt>" prints CPU seconds for against-grass.sh, "season <plan.json>" what a year of days costs against charts,
// "growth <tile.hgt> <tiles across> <steps in one>" a line of the curve; anything else goes to BenchmarkDotNet.
if (args is ["against", var tile]) AgainstGrass.Run(tile);
else if (args is ["season", var plan]) SeasonCost.Run(plan);
else if (args is ["growth", var one, var across, var finer]) Growth.Run(one, int.Parse(across), int.Parse(finer));
else BenchmarkSwitcher.FromAssembly(typeof(TerrainKernels).Assembly).Run(args);
