using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>The fields of one run of one model: what a service reckoned from one reference time on.</summary>
public sealed class WeatherRun
{
    private readonly Dictionary<(Instant, Parameter, int, double?), GribField> fields = [];
    private readonly Dictionary<(Instant, Parameter, int), SortedSet<double>> levels = [];

    internal WeatherRun(int centre, Instant reference, IEnumerable<GribField> all)
    {
        (Centre, Reference) = (centre, reference);
        foreach (var field in all) Add(field);
        Times = [.. fields.Keys.Select(key => key.Item1).Distinct().Order()];
    }

    /// <summary>Code of the service.</summary>
    public int Centre { get; }

    /// <summary>When the run begins.</summary>
    public Instant Reference { get; }

    /// <summary>The instants that any field is valid for, in order.</summary>
    public IReadOnlyList<Instant> Times { get; }

    public int FieldCount => fields.Count;

    /// <summary>The width of the finest cells of any of its fields.</summary>
    internal Length SmallestCell => fields.Values.Select(any => any.Grid).Distinct().Select(grid => grid.CellSize).Min();

    /// <summary>Runs of a set, the newest first. Means and sums over an interval, statistics of ensembles and members but the first are no state of the air at an hour, and left out.</summary>
    public static IReadOnlyList<WeatherRun> Of(GribSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        return
        [
            .. from field in set.Fields
               where field.Product is { IsInstant: true, IsOfManyRuns: false, Member: null or 0 }
               group field by (field.Product.Reference, field.Product.Centre) into run
               orderby run.Key.Reference descending, run.Min(field => field.Grid.CellSize.Metres)
               select new WeatherRun(run.Key.Centre, run.Key.Reference, run),
        ];
    }

    internal GribField? Field(Instant time, Parameter parameter, int levelType, double? level = null) =>
        fields.GetValueOrDefault((time, parameter, levelType, level));

    /// <summary>The same at whichever level of a type there is one: surfaces whose value says nothing.</summary>
    internal GribField? AnyLevel(Instant time, Parameter parameter, int levelType) =>
        Field(time, parameter, levelType) ?? (levels.TryGetValue((time, parameter, levelType), out var known) ? Field(time, parameter, levelType, known.Min) : null);

    /// <summary>What does not change with time, such as the ground: of the hour, or of any other.</summary>
    internal GribField? Constant(Instant time, Parameter parameter, int levelType) =>
        AnyLevel(time, parameter, levelType) ?? Times.Select(other => AnyLevel(other, parameter, levelType)).FirstOrDefault(field => field is not null);

    /// <summary>The levels of a type that a parameter is given at.</summary>
    internal IReadOnlyCollection<double> Levels(Instant time, Parameter parameter, int levelType) =>
        levels.TryGetValue((time, parameter, levelType), out var known) ? known : [];

    /// <summary>The times about an instant at which something is known: one of them twice where it is just that; null where the run does not reach.</summary>
    internal TimeBracket? Around(Instant instant, Func<Instant, bool> isKnown)
    {
        Instant? before = null;
        foreach (var time in Times.Where(isKnown))
        {
            if (time == instant) return new TimeBracket(time, time, 0);
            if (time > instant) return before is { } last ? new TimeBracket(last, time, (instant - last) / (time - last)) : null;
            before = time;
        }
        return null;
    }

    private void Add(GribField field)
    {
        var (product, parameter) = (field.Product, Parameter.Of(field.Product));
        fields.TryAdd((product.Start, parameter, product.Level.Type, product.Level.Value), field);
        if (product.Level.Value is not { } level) return;
        var key = (product.Start, parameter, product.Level.Type);
        if (!levels.TryGetValue(key, out var known)) levels[key] = known = [];
        known.Add(level);
    }
}

/// <summary>The two times of a run that an instant lies between.</summary>
/// <param name="Share">How far it is from the first to the second, 0 to 1.</param>
public readonly record struct TimeBracket(Instant From, Instant To, double Share)
{
    public Duration Step => To - From;

    internal double Between(double from, double to) => Share == 0 ? from : from + (Share * (to - from));

    internal double? Between(double? from, double? to) => Share == 0 || to is null ? (Share == 0 ? from : null) : from is { } known ? Between(known, to.Value) : null;
}
