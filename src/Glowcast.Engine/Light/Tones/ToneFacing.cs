using System.Runtime.CompilerServices;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>How the patches of a scene lie, and how much sky they see; worked out once for each scene.</summary>
internal sealed class ToneFacing
{
    private static readonly ConditionalWeakTable<Scene, ToneFacing> Known = [];

    private readonly GroundNormal[] normals;
    private readonly double[] skyViews;

    private ToneFacing(Scene scene)
    {
        var places = scene.Patches.Select(patch => patch.Ground).ToList();
        var found = places.ConvertAll(place => GroundNormal.At(scene.Grid, place.Point));
        normals = [.. found.Select(normal => normal ?? GroundNormal.Level)];
        skyViews = SkyView.Of(places, found, scene.Grid, scene.Model);
    }

    public static ToneFacing Of(Scene scene) => Known.GetValue(scene, scene => new ToneFacing(scene));

    /// <summary>Of a patch; level where the grid does not know it.</summary>
    public GroundNormal Normal(int patch) => normals[patch];

    /// <summary>Of a patch, 0 to 1.</summary>
    public double SkyViewOf(int patch) => skyViews[patch];
}
