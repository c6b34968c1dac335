namespace Glowcast.Engine.Take;

/// <summary>How one picture lies to another.</summary>
public enum JoinKind
{
    /// <summary>Not looked at: one of the two has no preview that can be compared, or they are of different shapes.</summary>
    NotLooked,

    /// <summary>There is too little in one of them to see how they lie: fog, or a clear sky.</summary>
    Faint,

    /// <summary>They share nothing that can be seen.</summary>
    Nothing,

    /// <summary>They show the same.</summary>
    Same,

    /// <summary>One goes on to the side of the other.</summary>
    Beside,

    /// <summary>One goes on above or below the other.</summary>
    AboveOrBelow,
}

/// <summary>How one picture lies to another, and how well the part that both show agrees.</summary>
/// <param name="Across">How far to the right of the first the second looks, in widths of a frame.</param>
/// <param name="Down">How far below it, in heights of a frame.</param>
/// <param name="Likeness">Of the part both show: the correlation of their textures, at most 1.</param>
/// <param name="IsSure">Alike beyond doubt, wherever they lie; else only where they lie as others of their set do.</param>
public readonly record struct Join(JoinKind Kind, double Across, double Down, double Likeness, bool IsSure)
{
    private const double SamePlace = 0.06;
    private const double MostOff = 0.2;
    private const double LeastAlike = 0.48;
    private const double LeastSurety = 4;
    private const double LeastLead = 0.5;
    private const double SurelyAlike = 0.62;
    private const double Sure = 6;
    private const double SureLead = 1.5;
    private const double SmoothAlike = 0.8;
    private const double SmoothApart = 0.12;
    private const double SmoothSurety = 2;
    private const double SurelySmoothAlike = 0.9;
    private const double SurelyApart = 0.25;

    /// <summary>The share of a frame that both show, along the side on which they lie.</summary>
    public double Overlap => 1 - Math.Max(Math.Abs(Across), Math.Abs(Down));

    /// <summary>Something of one is seen in the other.</summary>
    public bool IsSeen => Kind is JoinKind.Same or JoinKind.Beside or JoinKind.AboveOrBelow;

    /// <param name="place">Null where the two cannot be compared.</param>
    /// <param name="isFaint">There is little to see in one of them.</param>
    internal static Join Of(JoinPlace? place, bool isFaint)
    {
        if (place is not { } at) return new Join(isFaint ? JoinKind.Faint : JoinKind.NotLooked, 0, 0, 0, false);
        // Smooth pictures are somewhat alike at many places, and stand out little; there it counts how much more alike they are at one.
        var apart = at.Likeness - at.OtherLikeness;
        var isAlike = (at.Likeness >= LeastAlike && at.Surety >= LeastSurety && at.Lead >= LeastLead) || (at.Likeness >= SmoothAlike && apart >= SmoothApart && at.Surety >= SmoothSurety);
        var isSure = (at.Likeness >= SurelyAlike && at.Surety >= Sure && at.Lead >= SureLead) || (at.Likeness >= SurelySmoothAlike && apart >= SurelyApart && at.Surety >= SmoothSurety);
        return new Join(isAlike ? KindOf(at) : isFaint ? JoinKind.Faint : JoinKind.Nothing, at.Across, at.Down, at.Likeness, isAlike && isSure);
    }

    private static JoinKind KindOf(JoinPlace at)
    {
        var (across, down) = (Math.Abs(at.Across), Math.Abs(at.Down));
        if (Math.Max(across, down) < SamePlace) return JoinKind.Same;
        if (across >= down) return down <= MostOff ? JoinKind.Beside : JoinKind.Nothing;
        return across <= MostOff ? JoinKind.AboveOrBelow : JoinKind.Nothing;
    }
}
