namespace MakeSamples;

/// <summary>A queue that gives back the lowest point first, and of equally high ones that with the lowest index.</summary>
internal sealed class RisingWater(int capacity)
{
    private readonly double[] levels = new double[capacity];
    private readonly int[] points = new int[capacity];
    private int count;

    public void Push(double level, int point)
    {
        var place = count++;
        while (place > 0)
        {
            var parent = (place - 1) / 2;
            if (!Before(level, point, parent))
                break;
            Move(parent, place);
            place = parent;
        }
        (levels[place], points[place]) = (level, point);
    }

    public bool Pop(out double level, out int point)
    {
        (level, point) = (levels[0], points[0]);
        if (count == 0)
            return false;
        count--;
        SinkFromTop(levels[count], points[count]);
        return true;
    }

    private void SinkFromTop(double level, int point)
    {
        var place = 0;
        for (var child = 1; child < count; child = (2 * place) + 1)
        {
            if (child + 1 < count && Before(levels[child + 1], points[child + 1], child))
                child++;
            if (Before(level, point, child))
                break;
            Move(child, place);
            place = child;
        }
        (levels[place], points[place]) = (level, point);
    }

    private bool Before(double level, int point, int place) =>
        level < levels[place] || (level == levels[place] && point < points[place]);

    private void Move(int from, int to) => (levels[to], points[to]) = (levels[from], points[from]);
}
