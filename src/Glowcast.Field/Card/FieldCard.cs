using System.Xml.Linq;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Magnetism;
using Glowcast.Field.Pictures;
using Glowcast.Field.Words;

namespace Glowcast.Field.Card;

/// <summary>One page for the field: pictures, times, the set, what to do when late, and a place for notes.</summary>
/// <remarks>A single HTML file that asks nobody for anything: it prints on one side of A5, and is dim and red on a phone at night.</remarks>
public sealed class FieldCard
{
    private const double RidgePx = 240;
    private const double ChartPx = 150;
    private const int NoteLines = 9;

    private readonly LightForecast forecast;
    private readonly CardTimes? times;
    private readonly Declination declination;
    private readonly Clock clock;

    /// <exception cref="BadInputException">The magnetic declination is neither given nor can it be modelled.</exception>
    public FieldCard(LightForecast forecast, CardChoices choices)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        ArgumentNullException.ThrowIfNull(choices);
        (this.forecast, times, declination) = (forecast, CardTimes.Of(forecast, choices), choices.DeclinationFor(forecast));
        clock = new Clock(forecast.Plan.Date!.Value, forecast.Plan.Lookout!.Zone);
    }

    /// <summary>The whole page.</summary>
    public string Html() => CardPage.Write(
        $"Field card, {Say.Iso(forecast.Plan.Date!.Value)}",
        [Head(), Markup.Element("div", Markup.Class("top"), When(), Markup.Element("div", Pictures())), Markup.Element("main", Columns())]);

    private XElement Head()
    {
        var (plan, lookout) = (forecast.Plan, forecast.Plan.Lookout!);
        return Markup.Element(
            "header",
            Markup.Element("h1", $"{plan.Date!.Value.DayOfWeek} {Say.Iso(plan.Date.Value)}"),
            Markup.Element("p", Markup.Class("verdict"), Verdict()),
            Markup.Element("p", $"Lookout {lookout.Point}, eye at {Say.Metres(forecast.Eye.Height)}. True bearings {plan.Span}. Times: {(lookout.Zone is null ? "UTC" : lookout.Zone.Id)}."));
    }

    private string Verdict() => forecast.Fit is { Verdict: not Engine.Measures.Verdict.NoLight } fit
        ? FitWords.Verdict(fit)
        : $"No light. {forecast.WhyNone}{(forecast.NoLight is { } cause ? $" {NoLightWords.NextStep(cause)}" : "")}";

    private XElement? When() => times is null
        ? null
        : Markup.Element("div", Markup.Class("when"), TimesBlock.Of(times, clock), LateBlock.Of(forecast, times, clock));

    private IEnumerable<XElement> Pictures()
    {
        if (forecast.Scene is null) yield break;
        var plate = new Plate(forecast);
        yield return Figure(plate.Ridge(RidgePx).ToSvg("ridge"), $"The ridge as at {clock.Time(plate.Moment)}; frames numbered as they are shot, spare ones dashed.");
        if (plate.Chart(ChartPx) is { } chart) yield return Figure(chart.ToSvg("chart"), null);
    }

    private static XElement Figure(string svg, string? caption) => Markup.Element(
        "figure", XElement.Parse(svg), caption is null ? null : Markup.Element("figcaption", caption));

    /// <summary>What to do, how it will be, and what to beware of; on a phone one after the other.</summary>
    private IEnumerable<XElement> Columns()
    {
        if (forecast.Set is { } set)
        {
            yield return Markup.Element("div", BearingsBlock.Of(set, declination), SetBlock.Of(set, forecast.Fit?.Drift));
            yield return Markup.Element("div", PreparationBlock.Of(set, forecast.BestWindow?.Tones?.Exposure), SkyBlock.Of(forecast, clock));
        }
        else yield return Markup.Element("div", SkyBlock.Of(forecast, clock));
        yield return Markup.Element("div", RemedyBlock.Of(forecast, clock), Markup.Section("care", "Take care", Markup.List(forecast.Cautions)), Notes());
    }

    private static XElement Notes() => Markup.Section(
        "notes", "Field notes", Markup.Element("div", Markup.Class("lines"), Enumerable.Range(0, NoteLines).Select(_ => Markup.Element("i", ""))));
}
