using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>Which altitudes the picture of a plan shows: the clean rectangle of its set; without a camera as much as the plan asks for (docs/model.md, L4).</summary>
public static class Framing
{
    /// <returns>From the altitude of the highest crest.</returns>
    public static Func<Angle, PictureBounds> Of(Plan plan) => crest => plan.Gear is null ? WithoutCamera(plan, crest) : OfSet(PlannedSet.Of(plan, crest));

    public static PictureBounds OfSet(PlannedSet set) => new(set.Layout.Clean.Bottom, set.Layout.Clean.Top);

    private static PictureBounds WithoutCamera(Plan plan, Angle crest)
    {
        var bottom = plan.CentrePitch is { } pitch ? pitch - (plan.Vertical / 2) : crest - (plan.Vertical * plan.CrestShare);
        return new PictureBounds(bottom, bottom + plan.Vertical);
    }
}
