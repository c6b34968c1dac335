namespace Glowcast.Engine.Light;

/// <summary>A patch that stands for ground of a scene through a season.</summary>
/// <param name="Index">Of the patch in the scene.</param>
/// <param name="Patch">With the weight it has here.</param>
/// <param name="Normal">Of its ground, earth-fixed.</param>
/// <param name="NormalUp">Its part towards the zenith of the place.</param>
internal readonly record struct SeasonMember(
    int Index, GroundPatch Patch, GroundOffset Offset, double SkyView, (double X, double Y, double Z) Normal, double NormalUp);
