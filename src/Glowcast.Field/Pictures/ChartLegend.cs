namespace Glowcast.Field.Pictures;

/// <summary>What the textures of a light chart mean, in a line.</summary>
internal static class ChartLegend
{
    private static readonly (Texture Texture, string Meaning, double Room)[] Entries =
    [
        (Texture.Lit, "ridge lit, valley in shade", 190),
        (Texture.ValleyToo, "valley lit too", 125),
        (Texture.Partly, "partly lit", 100),
        (Texture.Shade, "shade", 80),
        (Texture.NoRidge, "no ridge seen", 125),
    ];

    public static IEnumerable<Mark> Marks(double left, double top)
    {
        foreach (var (texture, meaning, room) in Entries)
        {
            var swatch = new Box(left, top, 20, 12);
            yield return new Fill(texture, [swatch]);
            yield return new Outline(swatch.Corners, null, new Pen(Inks.Quiet, 0.75));
            yield return new Label(meaning, new Spot(left + 26, top + 10.5), 11.5, Anchor.Start, Inks.Quiet);
            left += room;
        }
        var (frame, spare) = (new Box(left, top + 4, 20, 4), new Box(left + 130, top + 4, 20, 4));
        yield return new Outline(frame.Corners, Inks.Bar, null);
        yield return new Label("frame of the set", new Spot(left + 26, top + 10.5), 11.5, Anchor.Start, Inks.Quiet);
        yield return new Outline(spare.Corners, Inks.Paper, new Pen(Inks.Bar, 0.75));
        yield return new Label("spare frame", new Spot(left + 156, top + 10.5), 11.5, Anchor.Start, Inks.Quiet);
    }
}
