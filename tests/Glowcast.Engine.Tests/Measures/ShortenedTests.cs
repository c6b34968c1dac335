using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Measures;

public class ShortenedTests
{
    [Fact]
    public void Eighty_characters_stay_and_more_are_left_out()
    {
        var fits = new string('a', 80);
        Assert.Equal(fits, Shortened.To80(fits));
        Assert.Equal($"{fits}…", Shortened.To80($"{fits}a"));
    }

    [Fact]
    public void No_character_is_cut_in_half_and_none_steers_a_terminal()
    {
        Assert.Equal($"{new string('a', 79)}…", Shortened.To80($"{new string('a', 79)}🏔"));
        Assert.Equal("a [2Jb", Shortened.To80("a\u001b[2Jb"));
    }
}
