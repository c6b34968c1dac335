using Glowcast.Engine.Light;
using Glowcast.Field.Pictures;
using NodaTime;

namespace Glowcast.Cli.Showing;

/// <summary>A small light chart: bearing across, time down. What is lit differs by its character, not by colour.</summary>
internal sealed class LightChartPicture
{
    private const int CloseS = 600;
    private const int WideS = 3600;
    private const int MinuteS = 60;
    private const int RoomForLastLabel = 5;
    private const int FewestAlikeToShorten = 3;

    private readonly LightChart chart;
    private readonly IReadOnlyList<LightWindow> windows;
    private readonly Clock clock;
    private readonly Glyphs glyphs;
    private readonly BearingAxis axis;
    private readonly IReadOnlyList<ChartCell> cells;
    private readonly string margin;

    private LightChartPicture(int width, LightChart chart, IReadOnlyList<LightWindow> windows, Clock clock, bool isAscii)
    {
        (this.chart, this.windows, this.clock) = (chart, windows, clock);
        glyphs = isAscii ? Glyphs.Plain : Glyphs.Blocks;
        margin = new string(' ', Label(chart.Track.Interval.Start).Length);
        axis = new BearingAxis(chart.Scene.Span, width - margin.Length - RoomForLastLabel);
        cells = [.. Enumerable.Range(0, axis.Characters).Select(character => ChartCell.Of(chart, character, axis.Characters))];
    }

    public static void Write(Page page, LightChart chart, IReadOnlyList<LightWindow> windows, Clock clock, bool isAscii)
    {
        page.Heading("Light chart");
        foreach (var line in new LightChartPicture(page.Terminal.Width, chart, windows, clock, isAscii).Lines()) page.Line(line);
    }

    private IEnumerable<string> Lines()
    {
        yield return glyphs.Legend;
        yield return "";
        yield return clock.ShortHeadings;
        var rows = Times().Select(time => (Time: time, Line: Line(time))).ToList();
        for (var (first, next) = (0, 0); first < rows.Count; first = next)
        {
            while (next < rows.Count && rows[next].Line == rows[first].Line) next++;
            var shown = next - first < FewestAlikeToShorten ? next - first : 1;
            for (var i = first; i < first + shown; i++) yield return Label(rows[i].Time) + rows[i].Line;
            if (shown < next - first) yield return $"{margin}  the same until {clock.Short(rows[next - 1].Time)}";
        }
        var (marks, labels) = axis.Ruler();
        yield return $"{margin}  {marks}";
        yield return $"{margin}  {labels}";
    }

    /// <summary>Every hour; within an hour of a window every ten minutes, and the first whole minute of it and after it.</summary>
    private IEnumerable<Instant> Times()
    {
        var (start, end) = (chart.Track.Interval.Start, chart.Track.Interval.End);
        var times = new SortedSet<Instant>(Every(WideS, start, end));
        foreach (var window in windows)
        {
            var (opens, closes) = (window.Start.At, window.End.At);
            times.UnionWith([NextWhole(opens, MinuteS), NextWhole(closes, MinuteS)]);
            times.UnionWith(Every(CloseS, opens - Duration.FromSeconds(WideS), closes + Duration.FromSeconds(WideS)));
        }
        return times.Where(time => start <= time && time <= end);
    }

    private static IEnumerable<Instant> Every(int seconds, Instant from, Instant to)
    {
        for (var time = NextWhole(from, seconds); time <= to; time += Duration.FromSeconds(seconds)) yield return time;
    }

    private string Line(Instant time)
    {
        var seconds = chart.Track.SecondsAt(time);
        var isWindow = windows.Any(window => window.Start.At <= time && time < window.End.At);
        return $"{(isWindow ? '>' : ' ')} {string.Concat(cells.Select(cell => glyphs.Of(cell.At(seconds))))}";
    }

    private string Label(Instant time) => $"{clock.ShortCells(time)} ";

    private static Instant NextWhole(Instant time, int seconds) =>
        Instant.FromUnixTimeSeconds((long)Math.Ceiling((time - NodaConstants.UnixEpoch).TotalSeconds / seconds) * seconds);

    /// <summary>The characters that stand for light.</summary>
    private sealed record Glyphs(char Lit, char Partly, char Shade, char Valley)
    {
        private const char NoRidge = ' ';

        public static readonly Glyphs Plain = new('#', '+', '.', 'v');

        public static readonly Glyphs Blocks = new('█', '▒', '·', 'v');

        public string Legend => $"{Lit} lit, valley in shade  {Partly} partly lit  {Shade} shade  {Valley} valley lit too  > window";

        public char Of(CellLight light) => light switch
        {
            CellLight.Lit => Lit,
            CellLight.Partly => Partly,
            CellLight.Shade => Shade,
            CellLight.ValleyToo => Valley,
            _ => NoRidge,
        };
    }
}
