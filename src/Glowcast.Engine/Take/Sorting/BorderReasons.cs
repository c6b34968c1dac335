namespace Glowcast.Engine.Take;

/// <summary>Why a set begins and ends where it does, in sentences.</summary>
internal sealed class BorderReasons(SessionFacts facts, SetRhythm rhythm)
{
    public IEnumerable<string> Of(AlignedSet set, int? before, bool isByHand)
    {
        if (isByHand)
        {
            yield return "You put its borders there.";
            yield break;
        }
        yield return Begin(set, before);
        yield return End(set);
    }

    private string Begin(AlignedSet set, int? before)
    {
        if (set.Marker is { } marker)
            return $"Begins after the marker frame {Name(marker)}{(facts.LooksLikeMarker(marker) ? "" : ", told by its time alone")}.";
        if (set.First == 0) return "Begins with the first frame there is.";
        var gap = $"{facts.GapS(set.First - 1, set.First):0.#} s after {Name(set.First - 1)}";
        var steps = $"frames of a row are {rhythm.StepS:0.#} s apart";
        if (before == set.First - 1) return $"Begins {gap}, when the set before it is through; {steps}.";
        return facts.SameGeometry(set.First - 1, set.First) && facts.SameExposure(set.First - 1, set.First, 0)
            ? $"Begins {gap}; {steps}."
            : $"Begins {gap}, which was shot with other settings.";
    }

    private string End(AlignedSet set)
    {
        var next = set.Last + 1;
        if (next == facts.Count) return "Ends with the last frame there is.";
        if (facts.LooksLikeMarker(next)) return $"Ends before the marker frame {Name(next)}.";
        var gap = $"the next frame, {Name(next)}, comes {facts.GapS(set.Last, next):0.#} s later";
        return set.Frames[^1].Position == rhythm.Length - 1
            ? $"Ends with the last place of its {Places}; {gap}."
            : $"Ends early: {gap}.";
    }

    private string Places => rhythm.Rows == 1 ? $"{rhythm.Length} exposures" : $"{rhythm.Length} exposures in {rhythm.Rows} rows";

    private string Name(int frame) => facts.Frames[frame].Name;
}
