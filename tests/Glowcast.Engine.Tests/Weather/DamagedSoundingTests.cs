using System.Globalization;
using System.Text;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Soundings of every format, damaged at random: each is read and judged, or refused, and neither takes more
/// memory than a sound one of that size could ask for.</summary>
/// <remarks>The environment variable GLOWCAST_DAMAGED_FILES sets how many a format; without it a few hundred.</remarks>
public class DamagedSoundingTests
{
    private const int UsualCount = 300;
    private const long MostBytesAFile = 16L << 20;

    private static readonly string[] Splices = ["", "\n", " ", "-", "/////", "-9999", "99999", "NaN", "1e308", "0", "=", "TTBB ", "21212 ", ",,,,", "m/s", "\u2212", "\0", "9".PadLeft(400, '9')];

    private static int Count =>
        int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_DAMAGED_FILES"), CultureInfo.InvariantCulture, out var count) ? count : UsualCount;

    [Theory]
    [InlineData(nameof(MadeSoundings.Listing))]
    [InlineData(nameof(MadeSoundings.NewerListing))]
    [InlineData(nameof(MadeSoundings.UniversityCsv))]
    [InlineData(nameof(MadeSoundings.PlainCsv))]
    [InlineData(nameof(MadeSoundings.TableBetweenMarks))]
    [InlineData(nameof(MadeSoundings.ProfileJson))]
    [InlineData(nameof(MadeSoundings.Temp))]
    public void A_damaged_sounding_is_judged_or_refused(string made)
    {
        var sound = MadeSoundings.Of(made);
        var (judged, refused, greediest) = (0, 0, 0L);
        for (var seed = 0; seed < Count; seed++)
        {
            var text = Damage(sound, new Random(seed));
            var before = GC.GetAllocatedBytesForCurrentThread();
            try
            {
                Judge(text);
                judged++;
            }
            catch (BadInputException refusal)
            {
                Assert.All(refusal.Faults, fault => Assert.Equal("made", fault.Field));
                refused++;
            }
            catch (Exception fault)
            {
                Assert.Fail($"seed {seed} of {made}: {fault}");
            }
            greediest = Math.Max(greediest, GC.GetAllocatedBytesForCurrentThread() - before);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{made}: {judged} judged, {refused} refused, at most {greediest >> 10} KiB for one");
        Assert.True(judged > 0);
        Assert.True(refused > 0);
        Assert.True(greediest < MostBytesAFile, $"one sounding took {greediest >> 20} MiB");
    }

    /// <summary>Whatever is read holds to what profiles promise.</summary>
    private static void Judge(string text)
    {
        var diagnosis = CloudDiagnosis.Of(Profile.Read(text, "made"));
        var levels = diagnosis.Profile.Levels;
        for (var i = 0; i < levels.Count; i++)
        {
            Assert.True(levels[i].DepressionC >= 0);
            Assert.True(i == 0 || (levels[i].HeightM > levels[i - 1].HeightM && levels[i].PressureHPa < levels[i - 1].PressureHPa));
        }
        Assert.All(diagnosis.Decks, deck => Assert.True(deck.Base < deck.TopHigh && deck.TopLow <= deck.TopHigh));
        Assert.All(diagnosis.Reasons, reason => Assert.True(double.IsFinite((reason.DepressionC ?? 0) + (reason.StrengthC ?? 0) + (reason.WindKt ?? 0)), $"{reason}"));
        Assert.True(diagnosis.BurnOff is not { } burnOff || double.IsFinite(burnOff.LatestHours));
        diagnosis.LookoutAt(Length.FromMetres(1000));
    }

    /// <summary>A few characters changed, most of them near one another; now and then something spliced in, a line repeated, or the end cut off.</summary>
    private static string Damage(string sound, Random random)
    {
        var text = new StringBuilder(sound);
        var around = random.Next(text.Length);
        for (var change = random.Next(6); change >= 0; change--)
        {
            var at = random.Next(3) == 0 ? random.Next(text.Length) : Math.Min(around + random.Next(16), text.Length - 1);
            text[at] = random.Next(4) switch { 0 => (char)random.Next(128), 1 => (char)('0' + random.Next(10)), 2 => text[random.Next(text.Length)], _ => (char)(text[at] ^ (1 << random.Next(7))) };
        }
        if (random.Next(3) == 0) text.Insert(random.Next(text.Length), Splices[random.Next(Splices.Length)]);
        var damaged = text.ToString();
        var lines = damaged.Split('\n');
        return random.Next(10) switch
        {
            0 => damaged[..random.Next(damaged.Length)],
            1 => string.Join('\n', lines.Append(lines[random.Next(lines.Length)])),
            2 => string.Join('\n', lines.Where((_, i) => i != lines.Length / 2)),
            3 => string.Join('\n', lines.Reverse()),
            _ => damaged,
        };
    }
}
