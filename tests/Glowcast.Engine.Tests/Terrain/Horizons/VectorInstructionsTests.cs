using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Glowcast.Benchmarks;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The kernels of the terrain give the same answer, to the last bit, on a processor without vector instructions.</summary>
public class VectorInstructionsTests
{
    private const string AnswerFile = "GLOWCAST_TEST_TERRAIN_ANSWER";

    [Fact]
    public async Task Without_vector_instructions_the_answer_is_the_same()
    {
        if (Environment.GetEnvironmentVariable(AnswerFile) is { } asked)
        {
            await File.WriteAllTextAsync(asked, Answer(), TestContext.Current.CancellationToken);
            return;
        }
        var file = Path.GetTempFileName();
        try
        {
            using var plain = Process.Start(OnlyThisTest(file))!;
            await plain.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.Equal(Answer(), await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken));
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static ProcessStartInfo OnlyThisTest(string file)
    {
        var program = Environment.ProcessPath!;
        var start = new ProcessStartInfo(program) { UseShellExecute = false, RedirectStandardOutput = false };
        if (Path.GetFileNameWithoutExtension(program) == "dotnet") start.ArgumentList.Add(typeof(VectorInstructionsTests).Assembly.Location);
        start.ArgumentList.Add("--filter-method");
        start.ArgumentList.Add("*" + nameof(Without_vector_instructions_the_answer_is_the_same));
        start.Environment["DOTNET_EnableHWIntrinsic"] = "0";
        start.Environment[AnswerFile] = file;
        return start;
    }

    private static string Answer()
    {
        var grid = RoughGround.Of(seed: 9, size: 201, holes: 20);
        var sweep = new HorizonSweep(grid, SightModel.Usual);
        var horizonRad = new float[grid.Heights.Length];
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var degrees in (double[])[0, 33, 77, 145, 268])
        {
            sweep.Run(Azimuth.FromDegrees(degrees), horizonRad);
            hash.AppendData(MemoryMarshal.AsBytes(horizonRad.AsSpan()));
        }
        var eye = new Place(grid.Posts.ToPoint(93.3, 71.8), Length.FromMetres(900));
        var azimuths = Enumerable.Range(0, 360).Select(degrees => Azimuth.FromDegrees(degrees)).ToList();
        foreach (var isExact in (bool[])[false, true])
        {
            new HorizonFan(grid, SightModel.Usual, azimuths, isExact).Run([eye, eye], horizonRad.AsMemory(0, 2 * azimuths.Count));
            hash.AppendData(MemoryMarshal.AsBytes(horizonRad.AsSpan(0, 2 * azimuths.Count)));
        }
        var ground = new RayGround(grid, SightModel.Usual, [eye, eye with { Height = Length.FromMetres(950) }]);
        var found = new RayFound[azimuths.Count];
        ground.From(ground.Blocks[0]).Find([.. azimuths.Select((azimuth, i) => new RayAsked(i % 2, azimuth.Radians, -1, 1, 300 * i))], found);
        foreach (var horizon in found) hash.AppendData(BitConverter.GetBytes(horizon.AngleRad));
        foreach (var column in VisibleSurface.From(grid, SightModel.Usual, eye, BearingSpan.FromDegrees(20, 340), 90).Columns)
            foreach (var sample in column.Samples) hash.AppendData(BitConverter.GetBytes(sample.AltitudeRad));
        return Convert.ToHexString(hash.GetHashAndReset());
    }
}
