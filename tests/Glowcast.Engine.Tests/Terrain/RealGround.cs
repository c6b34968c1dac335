using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The piece of real ground that is part of the repository (Reference/terrain/PROVENANCE.md).</summary>
internal static class RealGround
{
    private static readonly Lazy<ElevationGrid> Read = new(() =>
    {
        using var stream = ReferenceData.Open("terrain/jacksboro_3s.tif");
        return GridFile.Read(stream, "jacksboro_3s.tif");
    });

    public static ElevationGrid Grid => Read.Value;
}
