namespace Glowcast.Engine.Take;

/// <summary>Whether two sets show the same, and how single frames of theirs lie to one another.</summary>
/// <remarks>docs/model.md, Take eq. 25.</remarks>
internal sealed class SameSubject
{
    private const int Looked = 5;
    private const double MostAlike = 0.6;
    private const double SamePlace = 0.35;
    private const int KeptPictures = 64;

    private readonly Dictionary<string, JoinSearch.Picture?> pictures = new(StringComparer.Ordinal);
    private readonly Dictionary<(string, string), bool?> known = [];

    /// <returns>Null where their pictures were not looked at.</returns>
    public bool? Are(FoundSet a, FoundSet b)
    {
        if (a.Camera != b.Camera || a.First.Settings.FocalLength != b.First.Settings.FocalLength) return false;
        if (known.TryGetValue((a.First.Name, b.First.Name), out var same)) return same;
        return known[(a.First.Name, b.First.Name)] = Compared(a, b);
    }

    public Join Between(ShotFrame a, ShotFrame b) =>
        PictureOf(a) is { } first && PictureOf(b) is { } second ? Join.Of(JoinSearch.Of(first, second), first.IsFaint || second.IsFaint) : default;

    private bool? Compared(FoundSet a, FoundSet b)
    {
        var (ofA, ofB) = (Places(a), Places(b));
        // The other set may be swept the other way; without a plan its places are then counted from the other end.
        var straight = Share(ofA, place => ofB.GetValueOrDefault(place));
        if (straight is null or >= MostAlike) return straight is null ? null : true;
        return Share(ofA, place => ofB.GetValueOrDefault((place.Row, b.Columns - 1 - place.Column))) >= MostAlike;
    }

    private double? Share(Dictionary<(int Row, int Column), ShotFrame> places, Func<(int Row, int Column), ShotFrame?> partnerOf)
    {
        var pairs = places.Select(place => (place.Value, Partner: partnerOf(place.Key))).Where(pair => pair.Partner is not null).ToList();
        var looked = pairs.Where((_, i) => i % Math.Max(1, pairs.Count / Looked) == 0).Select(pair => Between(pair.Value, pair.Partner!))
            .Where(join => join.Kind is not (JoinKind.NotLooked or JoinKind.Faint)).ToList();
        return looked.Count == 0 ? null : looked.Average(join => join.IsSeen && Math.Max(Math.Abs(join.Across), Math.Abs(join.Down)) < SamePlace ? 1.0 : 0);
    }

    private static Dictionary<(int Row, int Column), ShotFrame> Places(FoundSet set) =>
        set.Frames.Where(frame => frame is { IsAgain: false, Shot: 0 }).GroupBy(frame => (frame.Row, frame.Column)).ToDictionary(place => place.Key, place => place.First().Frame);

    private JoinSearch.Picture? PictureOf(ShotFrame frame)
    {
        if (frame.View is not { } view) return null;
        if (pictures.Count >= KeptPictures) pictures.Clear();
        return pictures.TryGetValue(frame.Name, out var picture) ? picture : pictures[frame.Name] = new JoinSearch.Picture(view);
    }
}
