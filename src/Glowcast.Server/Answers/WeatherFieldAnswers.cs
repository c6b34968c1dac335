using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Server.Answers;

/// <summary>What files of weather models hold.</summary>
/// <param name="Runs">The newest first.</param>
/// <param name="Refused">What was passed over, and why.</param>
/// <param name="Checked">Every field was decoded; else only headers were read, and missing values are counted as far as these tell.</param>
public sealed record WeatherInfoAnswer(IReadOnlyList<WeatherFieldAnswer> Messages, IReadOnlyList<WeatherRunAnswer> Runs, IReadOnlyList<WeatherRefusal> Refused, bool Checked);

/// <summary>One field.</summary>
/// <param name="Message">Counted from 1 in its file, among messages of edition 2.</param>
/// <param name="LevelType">Code of table 4.5.</param>
/// <param name="Level">In the unit of that table: Pa, m …; null where it says nothing.</param>
/// <param name="EndHours">As <paramref name="StartHours"/> for an instant; both from the reference time.</param>
/// <param name="Grid">Number of the grid template: 30 for 3.30.</param>
/// <param name="Packing">Number of the packing template: 3 for 5.3.</param>
/// <param name="Missing">Values that are missing; null where only the data tell and these were not decoded.</param>
public sealed record WeatherFieldAnswer(
    string File, int Message, int Submessage, int Discipline, int Category, int Number, string Name, string Units, int LevelType, double? Level, string LevelName,
    int? SecondLevelType, double? SecondLevel, string Reference, double StartHours, double EndHours, int? Member, int Grid, string GridName, int Packing, string PackingName,
    int Ni, int Nj, long? Missing)
{
    public static WeatherFieldAnswer Of(GribField field, long? missing)
    {
        ArgumentNullException.ThrowIfNull(field);
        var (product, grid, level) = (field.Product, field.Grid, field.Product.Level);
        return new WeatherFieldAnswer(
            field.File.Name, field.Message, field.Submessage, product.Discipline, product.Category, product.Number, ParameterNames.NameOf(product), ParameterNames.UnitsOf(product),
            level.Type, level.Value, ParameterNames.LevelOf(level), level.SecondType, level.SecondValue, Whole(product.Reference),
            (product.Start - product.Reference).TotalHours, (product.End - product.Reference).TotalHours, product.Member, grid.Template, grid.Name, field.PackingTemplate, field.PackingName,
            grid.Ni, grid.Nj, missing);
    }

    private static string Whole(NodaTime.Instant instant) => NodaTime.Text.InstantPattern.General.Format(instant);
}

/// <summary>One run of one model.</summary>
public sealed record WeatherRunAnswer(string Centre, string Reference, double FirstHours, double LastHours, int Fields)
{
    public static WeatherRunAnswer Of(WeatherRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        return new WeatherRunAnswer(
            ParameterNames.CentreOf(run.Centre), NodaTime.Text.InstantPattern.General.Format(run.Reference),
            (run.Times[0] - run.Reference).TotalHours, (run.Times[^1] - run.Reference).TotalHours, run.FieldCount);
    }
}

/// <summary>Something in a file that cannot be read.</summary>
public sealed record WeatherRefusal(string File, string Reason)
{
    public static WeatherRefusal Of(Fault fault)
    {
        ArgumentNullException.ThrowIfNull(fault);
        return new WeatherRefusal(fault.Field, fault.Message);
    }
}

/// <summary>A field at a place.</summary>
/// <param name="Value">Null where it is missing there.</param>
/// <param name="I">Index along the row, from the first point in the direction of the scan.</param>
public sealed record WeatherValueAnswer(double? Value, string Units, string Name, bool Nearest, double I, double J, double LatitudeDeg, double LongitudeDeg);
