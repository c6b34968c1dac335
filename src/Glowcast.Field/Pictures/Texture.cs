namespace Glowcast.Field.Pictures;

/// <summary>A small square of dots that is laid side by side, so that states of light differ by more than their colour.</summary>
internal sealed class Texture
{
    private readonly Func<int, int, bool> isMarked;

    /// <param name="size">Dots to a side.</param>
    /// <param name="marked">The colour of the dots for which <paramref name="isMarked"/> says so; they get their column and row.</param>
    public Texture(string name, int size, Rgb ground, Rgb marked, Func<int, int, bool> isMarked) =>
        (Name, Size, Ground, Marked, this.isMarked) = (name, size, ground, marked, isMarked);

    public static readonly Texture Shade = Plain("shade", Inks.Shade);

    public static readonly Texture Lit = Plain("lit", Inks.Lit);

    public static readonly Texture Partly = new("partly", 4, Inks.Shade, Inks.Lit, (x, y) => (x + 4 - y) % 4 < 2);

    public static readonly Texture ValleyToo = new("valley-too", 5, Inks.LitPale, Inks.LitDot, (x, y) => x == 2 && y == 2);

    public static readonly Texture NoRidge = new("no-ridge", 7, Inks.Paper, Inks.Hatch, (x, y) => (x + y) % 7 == 0);

    public string Name { get; }

    public int Size { get; }

    public Rgb Ground { get; }

    public Rgb Marked { get; }

    public bool IsPlain => Size == 1;

    /// <summary>One colour, without dots.</summary>
    public static Texture Plain(string name, Rgb colour) => new(name, 1, colour, colour, (_, _) => false);

    /// <summary>Column and row of every dot that is marked.</summary>
    public IEnumerable<(int X, int Y)> Dots =>
        from y in Enumerable.Range(0, Size) from x in Enumerable.Range(0, Size) where isMarked(x, y) select (x, y);
}
