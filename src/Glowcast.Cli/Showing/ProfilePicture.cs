using Glowcast.Server.Answers;

namespace Glowcast.Cli.Showing;

/// <summary>A small picture of a profile: height up, temperature across; T and d part where the air is dry and meet where it is cloud.</summary>
internal static class ProfilePicture
{
    private const int Rows = 16;
    private const int LabelCharacters = 9;
    private const double HighestOverGroundM = 3000;

    /// <summary>Dew points farther below the warmest temperature stand at the left edge.</summary>
    private const double WidestC = 40;

    public static void Write(Page page, SoundingAnswer answer)
    {
        if (answer.Levels.Count < 2) return;
        var (groundM, topM) = (answer.Surface.HeightM, Math.Min(answer.Surface.HeightM + HighestOverGroundM, answer.Levels[^1].HeightM));
        var stepM = (topM - groundM) / (Rows - 1);
        var rows = Enumerable.Range(0, Rows).Select(row => At(answer.Levels, topM - (row * stepM))).ToList();
        var warmestC = rows.Max(row => row.TemperatureC);
        var coldestC = Math.Max(rows.Min(row => row.DewPointC), warmestC - WidestC);
        var characters = page.Terminal.Width - LabelCharacters - 4;
        page.Line("");
        foreach (var row in rows) page.Line($"{row.HeightM:0} m".PadLeft(LabelCharacters) + MarkOf(answer, row.HeightM, stepM) + "|" + LineOf(row));
        page.Line(new string(' ', LabelCharacters + 2) + $"{coldestC:0} °C".PadRight(characters - 5) + $"{warmestC:0} °C");
        page.Line($"{"",LabelCharacters + 2}T temperature, d dew point, ~ deck{(answer.Lookout is null ? "" : ", > lookout")}");

        string LineOf(ProfileLevelAnswer row)
        {
            var line = new char[characters];
            Array.Fill(line, ' ');
            line[Column(row.DewPointC)] = 'd';
            line[Column(row.TemperatureC)] = 'T';
            return new string(line);
        }

        int Column(double celsius) => warmestC > coldestC ? Math.Clamp((int)Math.Round((celsius - coldestC) / (warmestC - coldestC) * (characters - 1)), 0, characters - 1) : 0;
    }

    private static char MarkOf(SoundingAnswer answer, double heightM, double stepM) =>
        answer.Lookout is { } lookout && Math.Abs(lookout.HeightM - heightM) <= stepM / 2 ? '>'
        : answer.Decks.Any(deck => heightM >= deck.BaseM && heightM <= deck.TopHighM) ? '~'
        : ' ';

    /// <summary>By straight lines between levels.</summary>
    private static ProfileLevelAnswer At(IReadOnlyList<ProfileLevelAnswer> levels, double heightM)
    {
        var above = Enumerable.Range(1, levels.Count - 1).FirstOrDefault(i => levels[i].HeightM >= heightM, levels.Count - 1);
        var (lower, upper) = (levels[above - 1], levels[above]);
        var share = (heightM - lower.HeightM) / (upper.HeightM - lower.HeightM);
        return lower with
        {
            HeightM = heightM,
            TemperatureC = lower.TemperatureC + (share * (upper.TemperatureC - lower.TemperatureC)),
            DewPointC = lower.DewPointC + (share * (upper.DewPointC - lower.DewPointC)),
        };
    }
}
