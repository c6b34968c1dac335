namespace Glowcast.Engine.Tests.Take;

/// <summary>A wide view, rendered once: sky, ridges behind one another with texture, a sea of cloud that moves, near ground with parallax.
/// A frame is cut out of it wherever a camera looks. One unit across is the width of a frame, one unit down its height.</summary>
internal sealed class MadeView
{
    private const double Margin = 1.6;

    private readonly int frameWide;
    private readonly int frameHigh;
    private readonly int wide;
    private readonly int high;
    private readonly float[] ground;
    private readonly float[] near;
    private readonly float[] cloud;
    private readonly float[] cover;
    private readonly ViewStyle style;

    /// <param name="framesWide">What is turned over, in widths of a frame.</param>
    /// <param name="framesHigh">The same, in heights.</param>
    public MadeView(Random random, ViewStyle style, int frameWide, int frameHigh, double framesWide, double framesHigh)
    {
        (this.style, this.frameWide, this.frameHigh) = (style, frameWide, frameHigh);
        (wide, high) = ((int)((framesWide + (2 * Margin)) * frameWide), (int)((framesHigh + 0.8) * frameHigh));
        (ground, near, cloud, cover) = (new float[wide * high], new float[wide * high], new float[wide * high], new float[wide * high]);
        Sky(random);
        var crest = 0.4 * frameHigh + (0.35 * (high - frameHigh));
        for (var layer = 0; layer < style.Ridges; layer++) Ridge(random, layer, crest + (layer * 0.11 * frameHigh));
        SeaOfCloud(random, crest + (0.24 * frameHigh));
        Near(random, high - (0.42 * frameHigh));
    }

    /// <summary>What a frame sees, in stops below full white, row by row.</summary>
    /// <param name="left">Of the frame's middle from the left end of the view, in widths of a frame.</param>
    /// <param name="roll">Of the camera [radians].</param>
    public float[] Frame(double left, double top, double roll, double seconds, int pixelsWide, int pixelsHigh)
    {
        var (middleX, middleY) = ((left + Margin) * frameWide, (top + 0.9) * frameHigh);
        var (cos, sin) = (Math.Cos(roll), Math.Sin(roll));
        var stops = new float[pixelsWide * pixelsHigh];
        var drift = style.CloudPerS * seconds * frameWide;
        var shifted = style.Parallax * left * frameWide;
        for (var y = 0; y < pixelsHigh; y++)
            for (var x = 0; x < pixelsWide; x++)
            {
                var (u, v) = ((((x + 0.5) / pixelsWide) - 0.5) * frameWide, (((y + 0.5) / pixelsHigh) - 0.5) * frameHigh);
                var (worldX, worldY) = (middleX + (u * cos) - (v * sin), middleY + (u * sin) + (v * cos));
                var lower = At(near, worldX + shifted, worldY);
                var seen = lower < 0 ? lower : At(ground, worldX, worldY);
                var covered = lower < 0 ? 0 : At(cover, worldX + drift, worldY);
                var vignette = style.Vignette * (((u * u) / (frameWide * frameWide)) + ((v * v) / (frameHigh * frameHigh)));
                stops[(y * pixelsWide) + x] = (float)((seen * (1 - covered)) + (At(cloud, worldX + drift, worldY) * covered) - vignette);
            }
        return stops;
    }

    private float At(float[] map, double x, double y)
    {
        var column = Mirrored((int)Math.Floor(x), wide);
        var row = Math.Clamp((int)Math.Floor(y), 0, high - 2);
        var next = Mirrored((int)Math.Floor(x) + 1, wide);
        var (across, down) = ((float)(x - Math.Floor(x)), (float)Math.Clamp(y - row, 0, 1));
        var upper = (map[(row * wide) + column] * (1 - across)) + (map[(row * wide) + next] * across);
        var lower = (map[((row + 1) * wide) + column] * (1 - across)) + (map[((row + 1) * wide) + next] * across);
        return (upper * (1 - down)) + (lower * down);
    }

    private static int Mirrored(int at, int length)
    {
        var period = 2 * length;
        var within = ((at % period) + period) % period;
        return within < length ? within : period - 1 - within;
    }

    private void Sky(Random random)
    {
        var wisps = new Noise(random);
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
                ground[(y * wide) + x] = (float)(-1.6 + (1.1 * y / high) + (style.SkyStops * wisps.At((double)x / frameWide * 1.5, (double)y / frameWide * 4, 4)));
    }

    private void Ridge(Random random, int layer, double crest)
    {
        var (shape, texture) = (new Noise(random), new Noise(random));
        var haze = Math.Pow(0.5 + (0.5 * layer / Math.Max(1, style.Ridges - 1)), 1 / Math.Max(0.05, style.Clearness));
        for (var x = 0; x < wide; x++)
        {
            var at = (double)x / frameWide;
            var top = crest - (style.Relief * frameHigh * shape.At(at * style.Crests, 7.3, style.Jaggedness));
            for (var y = Math.Max(0, (int)top); y < high; y++)
            {
                var rock = -2.2 - (3.2 * haze) + (style.TextureStops * haze * texture.At(at * 6, (double)y / frameWide * 6, 4));
                var edge = Math.Clamp(y + 1 - top, 0, 1);
                ground[(y * wide) + x] = (float)((ground[(y * wide) + x] * (1 - edge)) + (rock * edge));
            }
        }
    }

    private void SeaOfCloud(Random random, double level)
    {
        var (edge, waves) = (new Noise(random), new Noise(random));
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
            {
                var at = (double)x / frameWide;
                var top = level + (0.1 * frameHigh * edge.At(at * 2, 1.5, 3));
                cover[(y * wide) + x] = (float)(style.Cloud * Math.Clamp((y - top) / (0.06 * frameHigh), 0, 1));
                cloud[(y * wide) + x] = (float)(-1.8 + (style.CloudStops * waves.At(at * 4, (double)y / frameWide * 9, 4)));
            }
    }

    // 0 where there is none: nothing seen is as bright as full white.
    private void Near(Random random, double level)
    {
        if (!style.HasNear) return;
        var (shape, texture) = (new Noise(random), new Noise(random));
        for (var x = 0; x < wide; x++)
        {
            var at = (double)x / frameWide;
            var top = level - (0.12 * frameHigh * shape.At(at * 3, 3.1, 4));
            for (var y = Math.Max(0, (int)top); y < high; y++) near[(y * wide) + x] = (float)(-5.5 + (0.8 * texture.At(at * 9, (double)y / frameWide * 9, 4)));
        }
    }
}

/// <summary>What a view is like.</summary>
/// <param name="Clearness">1 for clear air, near 0 for haze in which far ridges pale.</param>
/// <param name="Crests">To a width of a frame.</param>
/// <param name="CloudPerS">How fast the cloud moves [widths of a frame a second].</param>
/// <param name="Parallax">How far the near ground moves against the rest for a turn of a frame's width, in such widths.</param>
internal sealed record ViewStyle(
    int Ridges, double Relief, double Crests, int Jaggedness, double TextureStops, double SkyStops, double Clearness, double Cloud, double CloudStops, double CloudPerS,
    bool HasNear, double Parallax, double Vignette)
{
    public static ViewStyle Of(Random random) => new(
        random.Next(1, 5), 0.1 + (0.25 * random.NextDouble()), 0.8 + (2.5 * random.NextDouble()), random.Next(3, 6), 0.2 + (0.8 * random.NextDouble()),
        random.Next(3) == 0 ? 0.02 : 0.4 * random.NextDouble(), 0.2 + (0.8 * random.NextDouble()), random.Next(3) == 0 ? 0 : 0.5 + (0.5 * random.NextDouble()),
        0.1 + (0.5 * random.NextDouble()), (random.NextDouble() - 0.5) * 0.01, random.Next(3) == 0, 0.02 * random.NextDouble(), random.NextDouble());
}

/// <summary>Smooth noise of many lengths, about −1 to 1.</summary>
internal sealed class Noise(Random random)
{
    private readonly uint seed = (uint)random.Next();

    /// <param name="octaves">Each half as long and half as high as the one before.</param>
    public double At(double x, double y, int octaves)
    {
        var (sum, height) = (0.0, 1.0);
        for (var octave = 0; octave < octaves; octave++, x = (x * 2) + 17.3, y = (y * 2) + 9.7, height /= 1.8) sum += height * Smooth(x, y);
        return sum;
    }

    private double Smooth(double x, double y)
    {
        var (column, row) = ((int)Math.Floor(x), (int)Math.Floor(y));
        var (across, down) = (Eased(x - column), Eased(y - row));
        var upper = (Value(column, row) * (1 - across)) + (Value(column + 1, row) * across);
        var lower = (Value(column, row + 1) * (1 - across)) + (Value(column + 1, row + 1) * across);
        return (upper * (1 - down)) + (lower * down);
    }

    private static double Eased(double t) => t * t * (3 - (2 * t));

    private double Value(int column, int row)
    {
        var mixed = unchecked(((uint)column * 0x9E3779B1u) ^ ((uint)row * 0x85EBCA77u) ^ seed);
        mixed = unchecked((mixed ^ (mixed >> 15)) * 0x2C1B3C6Du);
        mixed = unchecked((mixed ^ (mixed >> 12)) * 0x297A2D39u);
        return ((mixed ^ (mixed >> 15)) / (double)uint.MaxValue * 2) - 1;
    }
}
