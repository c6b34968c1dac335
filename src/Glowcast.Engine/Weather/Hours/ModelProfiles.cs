using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>Profiles of a run at one place: bilinear in the steps of its grid, linear in time.</summary>
/// <param name="rule">What its relative humidity refers to.</param>
internal sealed class ModelProfiles(WeatherRun run, GeoPoint point, HumidityRule rule)
{
    private const double HighestLevelPa = 20_000;
    private const double UnderGroundHPa = 1;
    private const double OverGroundM = 10;
    private const int FewestLevels = 3;
    private const double PaPerHPa = 100;
    private const double KnotsPerMetreASecond = 1 / 0.514444;

    private static readonly int[] NativeTypes = [GribLevel.Hybrid, 118, 150];

    private readonly PointReadings readings = new(point);

    /// <summary>Whether the run has the air at a time: temperatures at several levels.</summary>
    public static bool HasAir(WeatherRun run, Instant time) =>
        run.Levels(time, Parameter.Temperature, GribLevel.Pressure).Count >= FewestLevels
        || NativeTypes.Any(type => run.Levels(time, Parameter.Temperature, type).Count >= FewestLevels && run.Levels(time, Parameter.Pressure, type).Count >= FewestLevels);

    /// <summary>Null where the run does not reach the instant, or its grid the place.</summary>
    /// <exception cref="BadInputException">Its fields do not make a profile; says which are missing.</exception>
    public ModelProfile? At(Instant instant)
    {
        if (run.Around(instant, time => HasAir(run, time)) is not { } bracket) return null;
        var levels = LevelsAt(bracket);
        if (levels.Count(level => level is { TemperatureC: not null, DewPointC: not null }) < FewestLevels) return null;
        var sounding = new Sounding("model profile", levels) { Station = ParameterNames.CentreOf(run.Centre), At = instant, Place = point };
        var diagnosis = CloudDiagnosis.Of(Profile.Of(sounding, "weather"));
        return new ModelProfile(run, point, instant, bracket, diagnosis, CoversAt(bracket));
    }

    private List<SoundingLevel> LevelsAt(TimeBracket bracket)
    {
        var ground = GroundAt(bracket);
        var above = IsobaricAt(bracket);
        if (above.Count(level => level is { TemperatureC: not null, DewPointC: not null }) < FewestLevels) above = NativeAt(bracket);
        above = above.FindAll(level => level is { TemperatureC: not null, DewPointC: not null } && IsOver(level, ground));
        return ground is { TemperatureC: not null, DewPointC: not null } ? [ground.Value, .. above] : above;
    }

    private static bool IsOver(SoundingLevel level, SoundingLevel? ground) =>
        ground is not { } below || (level.PressureHPa < below.PressureHPa - UnderGroundHPa && (level.HeightM is not { } height || height > below.HeightM + OverGroundM));

    private SoundingLevel? GroundAt(TimeBracket bracket)
    {
        var pressure = Value(bracket, time => run.AnyLevel(time, Parameter.Pressure, GribLevel.Ground)) / PaPerHPa;
        if (pressure is null || GroundHeight(bracket) is not { } height) return null;
        return LevelAt(bracket, pressure.Value, height, Close(2), Close(10));

        Func<Instant, Parameter, GribField?> Close(double metres) => (time, parameter) => run.Field(time, parameter, GribLevel.OverGround, metres);
    }

    private double? GroundHeight(TimeBracket bracket) =>
        Value(bracket, time => run.Constant(time, Parameter.GeopotentialHeight, GribLevel.Ground) ?? run.Constant(time, Parameter.Height, GribLevel.Ground) ?? run.Constant(time, Parameter.ModelGround, GribLevel.Ground))
        ?? (Value(bracket, time => run.Constant(time, Parameter.Geopotential, GribLevel.Ground)) / MoistAir.Gravity);

    private List<SoundingLevel> IsobaricAt(TimeBracket bracket) =>
    [
        .. from pascal in run.Levels(bracket.From, Parameter.Temperature, GribLevel.Pressure).Reverse()
           where pascal >= HighestLevelPa
           let at = At(GribLevel.Pressure, pascal)
           let height = Value(bracket, time => at(time, Parameter.GeopotentialHeight)) ?? (Value(bracket, time => at(time, Parameter.Geopotential)) / MoistAir.Gravity)
           select LevelAt(bracket, pascal / PaPerHPa, height, at, at),
    ];

    /// <summary>The model's own levels, where pressure is a field.</summary>
    private List<SoundingLevel> NativeAt(TimeBracket bracket)
    {
        var type = NativeTypes.FirstOrDefault(type => run.Levels(bracket.From, Parameter.Temperature, type).Count >= FewestLevels);
        return
        [
            .. from number in run.Levels(bracket.From, Parameter.Temperature, type)
               let at = At(type, number)
               let pascal = Value(bracket, time => at(time, Parameter.Pressure))
               where pascal >= HighestLevelPa
               let height = Value(bracket, time => at(time, Parameter.GeopotentialHeight) ?? at(time, Parameter.Height))
               orderby pascal descending
               select LevelAt(bracket, pascal.Value / PaPerHPa, height, at, at),
        ];
    }

    private Func<Instant, Parameter, GribField?> At(int type, double level) => (time, parameter) => run.Field(time, parameter, type, level);

    private SoundingLevel LevelAt(
        TimeBracket bracket, double pressureHPa, double? heightM, Func<Instant, Parameter, GribField?> air, Func<Instant, Parameter, GribField?> wind)
    {
        var temperatureC = Value(bracket, time => air(time, Parameter.Temperature)) - MoistAir.ZeroCelsiusK;
        var (east, north) = (Value(bracket, time => wind(time, Parameter.WindEast)), Value(bracket, time => wind(time, Parameter.WindNorth)));
        var turned = east is { } u && north is { } v && wind(bracket.From, Parameter.WindEast) is { } field ? Turned(u, v, field.Grid) : ((double From, double Kt)?)null;
        return new SoundingLevel(pressureHPa, heightM, temperatureC, DewPointC(bracket, pressureHPa, temperatureC, air), turned?.From, turned?.Kt);
    }

    private double? DewPointC(TimeBracket bracket, double pressureHPa, double? temperatureC, Func<Instant, Parameter, GribField?> air)
    {
        if (Value(bracket, time => air(time, Parameter.DewPoint)) is { } kelvin && Value(bracket, time => air(time, Parameter.RelativeHumidity)) is null) return kelvin - MoistAir.ZeroCelsiusK;
        if (Value(bracket, time => air(time, Parameter.RelativeHumidity)) is { } relative && temperatureC is { } warm) return ModelHumidity.DewPointC(warm, relative, rule, run.Centre);
        return Value(bracket, time => air(time, Parameter.SpecificHumidity)) is { } specific ? ModelHumidity.DewPointC(pressureHPa, specific) : null;
    }

    /// <summary>Where the wind comes from [°] and its speed [kt], turned from the grid to true north.</summary>
    private (double From, double Kt) Turned(double u, double v, GribGrid grid)
    {
        var (sin, cos) = Math.SinCos(grid.TurnRad(point));
        var (east, north) = ((u * cos) + (v * sin), (v * cos) - (u * sin));
        var from = Math.Atan2(-east, -north) * 180 / Math.PI;
        return (from < 0 ? from + 360 : from, Math.Sqrt((east * east) + (north * north)) * KnotsPerMetreASecond);
    }

    private ModelCovers CoversAt(TimeBracket bracket)
    {
        return new ModelCovers(
            Cover(Parameter.LowCover, 214), Cover(Parameter.MiddleCover, 224), Cover(Parameter.HighCover, 234),
            Cover(Parameter.TotalCover, 200) ?? Cover(Parameter.EcmwfTotalCover, 200));

        double? Cover(Parameter parameter, int layer)
        {
            var read = Value(bracket, time => LayerCover.Field(run, time, parameter, layer));
            return read is { } percent ? Math.Clamp(percent * parameter.CoverUnit, 0, 1) : null;
        }
    }

    private double? Value(TimeBracket bracket, Func<Instant, GribField?> field) =>
        bracket.Between(readings.Of(field(bracket.From)), bracket.Share == 0 ? null : readings.Of(field(bracket.To)));
}

/// <summary>Cover of the low, middle and high sky, as services name it.</summary>
internal static class LayerCover
{
    private static readonly int[] WholeSky = [GribLevel.Ground, 10, 200, 211];

    /// <param name="layer">The level type that stands for the layer where the parameter is total cover.</param>
    public static GribField? Field(WeatherRun run, Instant time, Parameter parameter, int layer) =>
        run.AnyLevel(time, Parameter.TotalCover, layer)
        ?? WholeSky.Concat([GribLevel.Pressure]).Where(type => type != GribLevel.Pressure || parameter != Parameter.TotalCover).Select(type => run.AnyLevel(time, parameter, type)).FirstOrDefault(field => field is not null);
}
