namespace Glowcast.Engine.Take;

/// <summary>How likely two pictures lie as they do, for each thing that may have happened between them: natural logarithms.</summary>
/// <remarks>docs/model.md, Take eq. 21.</remarks>
/// <param name="Same">The camera was not turned.</param>
/// <param name="Turned">It was turned by one step of the row.</param>
/// <param name="Skipped">By more than one: frames are missing between.</param>
/// <param name="RowChanged">It went on to another row.</param>
/// <param name="Apart">A set ends between them, or one of them is a picture by itself.</param>
internal readonly record struct JoinOdds(double Same, double Turned, double Skipped, double RowChanged, double Apart)
{
    private const double OtherExposure = 0.4;

    private static readonly JoinOdds Unknown = new(0, 0, 0, 0, 0);
    private static readonly JoinOdds OfSame = new(4, -9, -9, -6, 0);
    private static readonly JoinOdds OfStep = new(-9, 4, -8, -8, -6);
    private static readonly JoinOdds OfTwoSteps = new(-8, -4, 3, -5, -3);
    private static readonly JoinOdds OfOtherStep = new(-5, -1, 0, -2, -1);
    private static readonly JoinOdds OfRow = new(-7, -7, -5, 3, -2);
    private static readonly JoinOdds OfNothing = new(-6, -5, 1, 0.5, 0.5);

    public static JoinOdds Of(SessionFacts facts, int a, int b)
    {
        var join = facts.Joins.Between(a, b);
        var odds = Of(join, facts.Joins);
        if (facts.SameExposure(a, b, 0)) return odds;
        // What is clipped in one of them cannot be seen in it.
        return join.Kind == JoinKind.Nothing ? Unknown : new(odds.Same * OtherExposure, odds.Turned * OtherExposure, odds.Skipped * OtherExposure, odds.RowChanged * OtherExposure, odds.Apart * OtherExposure);
    }

    private static JoinOdds Of(Join join, JoinsSeen joins) => join.Kind switch
    {
        JoinKind.Same => OfSame,
        JoinKind.Beside => joins.IsStep(join) ? OfStep : Math.Abs(Math.Abs(join.Across) - (2 * joins.UsualStep)) < 0.15 ? OfTwoSteps : OfOtherStep,
        JoinKind.AboveOrBelow => OfRow,
        JoinKind.Nothing => OfNothing,
        _ => Unknown,
    };
}
