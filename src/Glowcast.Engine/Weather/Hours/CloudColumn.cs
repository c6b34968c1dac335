namespace Glowcast.Engine.Weather;

/// <summary>Cloud over one place, from level to level upward.</summary>
/// <param name="HeightM">Of the levels, rising.</param>
/// <param name="PerKm">What cloud water and ice take of a beam [1/km]; NaN where the files give none.</param>
/// <param name="Cover">Share of the cells under cloud, 0 to 1; NaN where the files give none.</param>
internal sealed record CloudColumn(float[] HeightM, float[] PerKm, float[] Cover)
{
    public float TopM => HeightM[^1];

    /// <summary>Between two columns of the same levels.</summary>
    public static CloudColumn Between(CloudColumn from, CloudColumn to, float share)
    {
        return from.HeightM.Length != to.HeightM.Length || share == 0
            ? from
            : new CloudColumn(Mixed(from.HeightM, to.HeightM), Mixed(from.PerKm, to.PerKm), Mixed(from.Cover, to.Cover));

        float[] Mixed(float[] a, float[] b)
        {
            var mixed = new float[a.Length];
            for (var i = 0; i < mixed.Length; i++) mixed[i] = a[i] + (share * (b[i] - a[i]));
            return mixed;
        }
    }

    /// <summary>By straight lines between levels; the lowest level reaches down to the ground, and above the highest nothing is known.</summary>
    public CloudHere At(double heightM)
    {
        if (heightM >= TopM) return new CloudHere(0, 0);
        var above = Array.BinarySearch(HeightM, (float)heightM) is var found && found < 0 ? ~found : found;
        if (above == 0) return new CloudHere(PerKm[0], Cover[0]);
        var share = (float)((heightM - HeightM[above - 1]) / (HeightM[above] - HeightM[above - 1]));
        return new CloudHere(PerKm[above - 1] + (share * (PerKm[above] - PerKm[above - 1])), Cover[above - 1] + (share * (Cover[above] - Cover[above - 1])));
    }
}

/// <summary>Cloud at a point of a beam; NaN where the files do not say.</summary>
internal readonly record struct CloudHere(double PerKm, double Cover);
