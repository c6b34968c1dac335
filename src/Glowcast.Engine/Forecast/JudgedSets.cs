using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Sets in the window that they were laid into, for whoever asks of other starts.</summary>
internal sealed record JudgedSets(JudgedDay Day, SetJudge Judge, SetSequence Sets)
{
    public JudgedStart At(Instant start) => JudgedStart.Of(Judge, Sets, Day, start);

    public IReadOnlyList<JudgedStart> Table(IEnumerable<Instant> named) => JudgedStart.Table(Judge, Sets, Day, named);
}
