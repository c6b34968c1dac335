using BenchmarkDotNet.Running;
using Glowcast.Benchmarks;

// "against <tile.hgt>" prints CPU seconds for against-grass.sh; anything else goes to BenchmarkDotNet.
if (args is ["against", var tile]) AgainstGrass.Run(tile);
else BenchmarkSwitcher.FromAssembly(typeof(TerrainKernels).Assembly).Run(args);
