namespace Glowcast.Engine.Take;

/// <summary>In what a take is not as its plan has it.</summary>
public enum MismatchKind
{
    /// <summary>The focal length [mm].</summary>
    Lens,

    /// <summary>How the body was held: 0 on its long side, 1 on its short side.</summary>
    Orientation,

    /// <summary>The shape of the pictures: the longer side by the shorter.</summary>
    Camera,

    /// <summary>The day: days after that of the plan.</summary>
    Day,

    /// <summary>The place: how far from the plan's lookout [m].</summary>
    Place,

    /// <summary>Frames in a row.</summary>
    Columns,

    /// <summary>The share of a frame that its neighbour repeats.</summary>
    Overlap,
}

/// <summary>A quantity that is not as the plan has it.</summary>
/// <param name="Camera">Whose frames it is about; empty where they do not say.</param>
/// <param name="Planned">In the units of its kind.</param>
/// <param name="Found">As most frames have it.</param>
public sealed record PlanMismatch(MismatchKind Kind, string Camera, double Planned, double Found);
