using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Showing;

/// <summary>Bearings laid out over the characters of a line.</summary>
internal sealed class BearingAxis(BearingSpan span, int characters)
{
    private const int CharactersPerLabel = 9;

    private static readonly double[] EvenStepsDeg = [0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 45];

    public BearingSpan Span { get; } = span;

    public int Characters { get; } = characters;

    public double DegreesPerCharacter => Span.Width.Degrees / Characters;

    /// <summary>The smallest step that people count in and that is no smaller than <paramref name="leastDeg"/>.</summary>
    public static double EvenStepDeg(double leastDeg) => EvenStepsDeg.FirstOrDefault(step => step >= leastDeg, EvenStepsDeg[^1]);

    /// <summary>A line of marks and a line of bearings below them.</summary>
    public (string Marks, string Labels) Ruler()
    {
        var stepDeg = EvenStepDeg(CharactersPerLabel * DegreesPerCharacter);
        var (marks, labels) = (Blank(), Blank());
        for (var at = Math.Ceiling((Span.From.Degrees / stepDeg) - 1e-9) * stepDeg; at <= Span.From.Degrees + Span.Width.Degrees; at += stepDeg)
        {
            var character = Math.Min((int)((at - Span.From.Degrees) / DegreesPerCharacter), Characters - 1);
            marks[character] = '^';
            Azimuth.FromDegrees(at).Degrees.ToString("0.#°", null).CopyTo(labels.AsSpan(character));
        }
        return (Text(marks), Text(labels));
    }

    // Labels may run past the last character.
    private char[] Blank() => [.. Enumerable.Repeat(' ', Characters + CharactersPerLabel)];

    private static string Text(char[] line) => new string(line).TrimEnd();
}
