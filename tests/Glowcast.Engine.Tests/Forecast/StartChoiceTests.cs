using Glowcast.Engine.Forecast;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>Which start is advised, situation by situation. The order (chance, drift, light) is ours; common practice, no source.</summary>
public class StartChoiceTests
{
    // Starts are "second: chance, drift in stops, warmth, depth of shade"; a third of a stop is tolerated.
    [Theory]
    [InlineData("the one start there is", "60: 0.55 0.1 0.5 0.5", 60, StartReason.Safest)]
    [InlineData("a surer start beats a redder one", "0: 0.90 0.1 0.9 0.5; 60: 0.95 0.1 0.2 0.5", 60, StartReason.Safest)]
    [InlineData("as sure to 2 %, the earlier is redder", "0: 0.945 0.1 0.9 0.5; 60: 0.96 0.1 0.2 0.5", 0, StartReason.RedderLight)]
    [InlineData("just over 2 % less sure is not as sure", "0: 0.939 0.1 0.9 0.5; 60: 0.96 0.1 0.2 0.5", 60, StartReason.Safest)]
    [InlineData("as sure, the later has deeper shade", "0: 0.96 0.1 0.4 0.3; 60: 0.95 0.1 0.3 0.9", 60, StartReason.DeeperShade)]
    [InlineData("redder by more than the shade is shallower", "0: 0.95 0.1 0.9 0.3; 60: 0.96 0.1 0.4 0.4", 0, StartReason.RedderLight)]
    [InlineData("as sure, one drifts too far, whatever its colour", "0: 0.96 0.5 1.0 1.0; 60: 0.95 0.3 0.1 0.1", 60, StartReason.SteadierLight)]
    [InlineData("all drift too far: the least", "0: 0.96 -0.9 1.0 1.0; 60: 0.95 -0.5 0.1 0.1; 120: 0.955 0.6 0.9 0.9", 60, StartReason.SteadierLight)]
    [InlineData("drift within tolerance is no drift", "0: 0.95 0.33 0.9 0.5; 60: 0.96 0.01 0.2 0.5", 0, StartReason.RedderLight)]
    [InlineData("a darkening evening drifts as much as a brightening morning", "0: 0.96 -0.4 1.0 1.0; 60: 0.95 0.3 0.1 0.1", 60, StartReason.SteadierLight)]
    [InlineData("equal light: the surest", "0: 0.955 0.1 0.5 0.5; 60: 0.96 0.1 0.5 0.5; 120: 0.95 0.1 0.5 0.5", 60, StartReason.Safest)]
    public void The_chance_comes_first_then_steady_then_rich_light(string situation, string starts, double start, StartReason why)
    {
        var chosen = StartChoice.Of([.. starts.Split(';').Select(Read)], 1.0 / 3);
        Assert.True((start, why) == (chosen.StartS, chosen.Why), $"{situation}: {chosen}");
    }

    private static StartCandidate Read(string text)
    {
        var numbers = text.Split(':', ' ').Where(part => part.Length > 0).Select(part => double.Parse(part, System.Globalization.CultureInfo.InvariantCulture)).ToList();
        return new StartCandidate(numbers[0], numbers[1], numbers[2], numbers[3], numbers[4]);
    }
}
