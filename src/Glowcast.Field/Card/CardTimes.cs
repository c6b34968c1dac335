using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Field.Card;

/// <summary>The moments of a morning or an evening at the lookout, one after the other.</summary>
/// <remarks>Set-up is reckoned back from the start that the plan gives, or that is advised, or that loses least where the set does not fit.</remarks>
/// <param name="Leave">The door.</param>
/// <param name="OnSite">At the spot.</param>
/// <param name="Rehearse">The tripod stands level, the camera is on.</param>
/// <param name="Earliest">Null where the set does not fit.</param>
/// <param name="Latest">Null where the set does not fit.</param>
/// <param name="SetEnds">The last exposure of the last set is written.</param>
/// <param name="Stop">The window closes.</param>
/// <param name="EarliestUncertainty">One standard deviation.</param>
/// <param name="LatestUncertainty">Of the latest start.</param>
/// <param name="StopUncertainty">Of the end of the window.</param>
internal sealed record CardTimes(
    Instant Leave, Instant OnSite, Instant Rehearse, Instant? Earliest, Instant Start, Instant? Latest, Instant SetEnds, Instant Stop,
    Duration EarliestUncertainty, Duration LatestUncertainty, Duration StopUncertainty)
{
    /// <returns>Null on a day without a window.</returns>
    public static CardTimes? Of(LightForecast forecast, CardChoices choices)
    {
        if (forecast is not { Start: { } start, Set: { } set, Fit: { } fit, BestWindow: { } window }) return null;
        var (onSite, usual) = (start - fit.SetUp, SetUpTimes.Usual);
        return new CardTimes(
            onSite - choices.Travel, onSite, onSite + usual.Tripod + usual.LevelBase + usual.Mount + usual.LevelCamera,
            fit.EarliestStart, start, fit.LatestStart, start + set.Clock.Total, window.End.At,
            fit.Room?.BeforeUncertainty ?? Of(window.Start), fit.Room?.AfterUncertainty ?? Of(window.End), Of(window.End));

        static Duration Of(WindowEdge edge) => Duration.FromSeconds(edge.Uncertainty.CombinedS);
    }
}
