using System.CommandLine;
using System.Text.Json.Nodes;
using Glowcast.Cli.Asking;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Commands;

/// <summary>A command that answers a plan for the light of its day.</summary>
internal abstract class PlanCommand(string name, string description, string example, Terminal terminal)
    : GridAnswerCommand(name, description, example, terminal)
{
    protected Option<string[]> Plan { get; } = Ask.Plan();

    protected Option<string[]> Date { get; } = Ask.Date();

    /// <summary>The forecast of a plan as changed by the command line: its grids, its date, and how lines of sight run.</summary>
    /// <exception cref="Engine.Measures.BadInputException">Something is missing or wrong; says all that is.</exception>
    protected LightForecast Forecast(Question asked, PlanNeeds needs, CancellationToken cancel)
    {
        var (plan, grid) = Read(asked, needs);
        asked.Faults.ThrowIfAny();
        return needs.HasFlag(PlanNeeds.Forecast) ? ForecastWork.Run(Terminal, plan!, grid!, cancel) : ForecastWork.LightAlone(Terminal, plan!, grid!, cancel);
    }

    /// <summary>The plan and its grid; faults are noted, and what they belong to is null.</summary>
    protected (Plan? Plan, ElevationGrid? Grid) Read(Question asked, PlanNeeds needs)
    {
        return Read(asked, asked.Required(Plan, "the file of a plan", PlanFile.Open), needs);
    }

    /// <summary>All plans of a command line that may name several, each under the name of its file; faults are noted, and what they
    /// belong to is left out.</summary>
    protected IReadOnlyList<SeasonSite> ReadAll(Question asked, PlanNeeds needs)
    {
        if (!asked.Has(Plan)) asked.Faults.Add(Plan.Name, "Is missing; give the file of a plan, or of several.");
        var sites = new List<SeasonSite>();
        foreach (var path in asked.Texts(Plan))
        {
            var (plan, grid) = Read(asked, asked.Try(() => PlanFile.Open(path, Plan.Name)), needs);
            var stem = Path.GetFileNameWithoutExtension(path);
            if (plan is not null && grid is not null) sites.Add(new SeasonSite(sites.Exists(site => site.Name == stem) ? path : stem, plan, grid));
        }
        return sites;
    }

    private (Plan? Plan, ElevationGrid? Grid) Read(Question asked, PlanFile? file, PlanNeeds needs)
    {
        var isGridGiven = asked.Has(Grids);
        if (isGridGiven) file?.Change("grids", new JsonArray([.. asked.Texts(Grids).Select(path => JsonValue.Create(path))]));
        if (asked.Optional(Date, TimeReader.Date) is var date && asked.Has(Date))
            file?.Change("date", NodaTime.Text.LocalDatePattern.Iso.Format(date));
        var plan = file is null ? null : asked.Try(() => file.Read(needs));
        var fillsHoles = plan?.FillHoles ?? false;
        var grid = isGridGiven ? ReadGrids(asked, asked.Texts(Grids), Grids.Name, plan?.Lookout?.Point, fillsHoles)
            : file?.GridPaths is { Count: > 0 } paths ? ReadGrids(asked, paths, "grids", plan?.Lookout?.Point, fillsHoles)
            : null;
        var sight = ReadSight(asked, plan?.Conditions.Sight ?? SightModel.Usual);
        return (plan is null ? null : plan with { Conditions = plan.Conditions with { Sight = sight } }, grid);
    }
}
