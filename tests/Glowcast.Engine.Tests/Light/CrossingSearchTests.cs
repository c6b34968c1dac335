using Glowcast.Engine.Light;

namespace Glowcast.Engine.Tests.Light;

public class CrossingSearchTests
{
    private const double SemidiameterRad = 0.00465;
    private const double ToleranceS = 0.25;

    /// <param name="lit">Height of the sun over what it stands above before the jump, in semidiameters.</param>
    [Theory]
    [InlineData(0.43, -8)]
    [InlineData(1.1, -14)]
    [InlineData(0.05, -40)]
    public void Where_the_horizon_jumps_the_moment_is_that_of_the_jump(double lit, double dark)
    {
        for (var jumpS = 0.5; jumpS < 120; jumpS += 0.5)
        {
            var search = new CrossingSearch(0, lit, 120, dark, 0, SemidiameterRad, ToleranceS);
            while (!search.Take(Sun(search.AtS < jumpS ? lit : dark - (0.008 * search.AtS))))
            {
            }
            Assert.InRange(search.AtS, jumpS - ToleranceS, jumpS + ToleranceS);
        }
    }

    private static SunSighting Sun(double inSemidiameters) => new(0, 0, SemidiameterRad, inSemidiameters * SemidiameterRad, 1000);
}
