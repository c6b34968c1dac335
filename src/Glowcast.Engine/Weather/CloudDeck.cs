using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>What a deck is.</summary>
public enum DeckKind
{
    /// <summary>It lies on the ground, in light wind.</summary>
    Fog,

    /// <summary>It floats above the ground, or wind stirs it.</summary>
    Stratus,
}

/// <summary>A moist layer that an inversion holds down: the sea of cloud of the profile, if there is one.</summary>
public sealed record CloudDeck(MoistLayer Layer, Inversion Lid, DeckKind Kind)
{
    private const double FogDepressionC = 1.0;
    private const double FogWindKt = 10;
    private const double UnderLidM = 200;

    /// <summary>How far above the inversion's top a layer may reach and still be held down by it.</summary>
    internal const double OverLidM = 50;

    public Length Base => Layer.Base;

    /// <summary>The low estimate of the top: the base of the inversion where it floats, as mixed cloud ends there.</summary>
    public Length TopLow => Lid.Type == InversionType.Elevated && Lid.Base < Layer.Top ? Lid.Base : Layer.Top;

    /// <summary>The high estimate of the top: where the dew-point depression passes 2 °C.</summary>
    public Length TopHigh => Layer.Top;

    /// <summary>The decks of a profile, from the lowest up. A layer that is moist through the whole inversion and on is
    /// cloud of a front, and no deck (docs/model.md, W8).</summary>
    public static IReadOnlyList<CloudDeck> Of(Profile profile, IReadOnlyList<Inversion> inversions, IReadOnlyList<MoistLayer> layers)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(inversions);
        ArgumentNullException.ThrowIfNull(layers);
        return
        [
            .. from layer in layers
               let lid = inversions.FirstOrDefault(inversion => HoldsDown(inversion, layer))
               where lid is not null
               select new CloudDeck(layer, lid, KindOf(profile.Surface, layer)),
        ];
    }

    private static bool HoldsDown(Inversion lid, MoistLayer layer)
    {
        var highestBaseM = lid.Base.Metres + (lid.Type == InversionType.Elevated ? OverLidM : 0);
        return layer.Top.Metres >= lid.Base.Metres - UnderLidM && layer.Top.Metres <= lid.Top.Metres + OverLidM && layer.Base.Metres <= highestBaseM;
    }

    private static DeckKind KindOf(ProfileLevel surface, MoistLayer layer) =>
        layer.IsAtGround && surface.DepressionC <= FogDepressionC + 1e-6 && (surface.WindKt ?? 0) <= FogWindKt ? DeckKind.Fog : DeckKind.Stratus;
}
