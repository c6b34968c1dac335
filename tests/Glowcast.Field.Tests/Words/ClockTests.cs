using Glowcast.Engine.Measures;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Field.Tests.Words;

public class ClockTests
{
    private static readonly Instant Whole = Instant.FromUtc(2026, 10, 24, 8, 52, 59);

    private readonly Clock clock = new(new LocalDate(2026, 10, 24), null);

    [Fact]
    public void Every_moment_is_written_as_its_tenth_of_a_second_is() => Assert.All(Enumerable.Range(0, 200).Select(i => Whole + Duration.FromMilliseconds(10 * i)), moment =>
    {
        Assert.Equal(clock.Time(Rounded.ToTenths(moment)), clock.Time(moment));
        Assert.Equal(clock.Short(Rounded.ToTenths(moment)), clock.Short(moment));
    });
}
