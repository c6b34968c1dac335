using Glowcast.Engine.Forecast;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>What a remedy changes in the plan, by the plan's own field names, so that one click tries it.</summary>
internal static class PlanEdits
{
    /// <summary>Of a split span, what makes the plan that of the half shot first.</summary>
    public static IReadOnlyDictionary<string, object?> Of(Remedy remedy, PlannedSet planned)
    {
        var ((plan, layout, _, _), before) = (remedy.Set, planned.Layout.Settings);
        var after = layout.Settings;
        var edits = new Dictionary<string, object?>();
        Note("date", LocalDatePattern.Iso.Format(plan.Date!.Value), LocalDatePattern.Iso.Format(planned.Plan.Date!.Value));
        Note("span.fromDeg", plan.Span.From.Degrees, planned.Plan.Span.From.Degrees);
        Note("span.toDeg", plan.Span.To.Degrees, planned.Plan.Span.To.Degrees);
        if (plan.DarkStrips.Count != planned.Plan.DarkStrips.Count)
            edits.Add("span.darkStrips", plan.DarkStrips.Select(strip => new { FromDeg = Math.Round(strip.From.Degrees, 3), ToDeg = Math.Round(strip.To.Degrees, 3) }).ToList());
        Note("lens.focalLengthMm", layout.Lens.FocalLength.Millimetres, planned.Layout.Lens.FocalLength.Millimetres);
        Note("set.orientation", NameOf(after.Orientation), NameOf(before.Orientation));
        Note("set.overlap", after.Overlap, before.Overlap);
        Note("set.rows", after.Rows ?? 0, before.Rows ?? 0);
        Note("set.repeats", after.Repeats, before.Repeats);
        Note("set.rowOrder", NameOf(after.Order.Rows), NameOf(before.Order.Rows));
        Note("set.direction", NameOf(after.Order.Direction), NameOf(before.Order.Direction));
        // It is worked out for its own best start, whatever start is given or dragged.
        edits.Add("set.startAt", null);
        return edits;

        void Note<T>(string field, T now, T then) where T : notnull
        {
            if (!now.Equals(then)) edits.Add(field, now);
        }
    }

    private static string NameOf(Enum value) => System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}
