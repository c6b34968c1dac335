namespace Glowcast.Engine.Sky;

/// <summary>Knots at Start, Start + Step, …</summary>
internal readonly record struct EvenAxis(double Start, double Step, int Count)
{
    /// <summary>The axis that has <paramref name="margin"/> cells before <paramref name="from"/>, which is a knot, and at
    /// least as many after <paramref name="to"/>.</summary>
    public static EvenAxis Covering(double from, double to, double step, int margin) =>
        new(from - (margin * step), step, (int)Math.Ceiling((to - from) / step) + (2 * margin) + 1);

    public double Knot(int index) => Start + (index * Step);

    /// <summary>The cell a value lies in and how far along it, 0 to 1; beyond the ends, the end cell.</summary>
    public (int Index, double Along) Cell(double value)
    {
        var place = (value - Start) / Step;
        var index = Math.Clamp((int)place, 0, Count - 2);
        return (index, place - index);
    }
}
