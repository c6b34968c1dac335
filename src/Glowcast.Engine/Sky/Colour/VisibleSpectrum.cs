namespace Glowcast.Engine.Sky;

/// <summary>Visible light in steps of 5 nm from 380 to 780 nm, and what the eye makes of it.</summary>
internal static class VisibleSpectrum
{
    public const double StepNm = 5;

    /// <summary>Lumens in a watt at ȳ = 1 (ISO 23539).</summary>
    private const double MaximumEfficacy = 683.002;

    private static readonly Tristimulus[] Observer = [.. Enumerable.Range(0, 81).Select(i => ColourMatching.At(WavelengthNm(i)))];

    public static int Count => Observer.Length;

    public static double WavelengthNm(int index) => 380 + (index * StepNm);

    /// <summary>A function of wavelength [nm] at the wavelengths of this spectrum.</summary>
    public static double[] Sample(Func<double, double> function) => [.. Enumerable.Range(0, Count).Select(i => function(WavelengthNm(i)))];

    /// <param name="powerPerNm">At the wavelengths of this spectrum; W m⁻² nm⁻¹ makes Y an illuminance in lux.</param>
    public static Tristimulus Weigh(ReadOnlySpan<double> powerPerNm)
    {
        var sum = default(Tristimulus);
        for (var i = 0; i < Count; i++) sum += powerPerNm[i] * Observer[i];
        return MaximumEfficacy * StepNm * sum;
    }
}
