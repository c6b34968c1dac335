using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;

namespace Glowcast.Field.Words;

/// <summary>Why a set fits no better, in words.</summary>
internal static class ReasonWords
{
    public static string Of(FitReason reason, Clock clock) => reason.Code switch
    {
        FitReasonCode.LateStrip => $"{Strip(reason)} is {(reason.Horizon is null ? "lit too weakly" : $"in the shade of {Ground(reason)}")} until {clock.Short(reason.At!.Value)}{Without(reason, clock)}.",
        FitReasonCode.EarlyStrip => $"{Strip(reason)} {(reason.Horizon is null ? "is lit too weakly from" : $"falls into the shade of {Ground(reason)} at")} {clock.Short(reason.At!.Value)}{Without(reason, clock)}.",
        FitReasonCode.DarkStrip => $"{Strip(reason)} has no sun in this window{Without(reason, clock)}.",
        FitReasonCode.SetTooLong => $"The set takes {Say.Time(reason.By!.Value)} longer than its light lasts, to {clock.Short(reason.At!.Value)}.",
        FitReasonCode.Unsure => $"Its starts last {Say.Time(reason.By!.Value)}, which is little beside what they are sure by.",
        FitReasonCode.UnknownBeyond => $"Ground past the edge of the grid, {Say.Distance(reason.GridEdge!.Value.Metres)} off towards the sun, could stand in the way{Moved(reason)}: add the next grid to be surer.",
        FitReasonCode.RidgeNotSeen => "The ridge is not seen: through this air it cannot be told from the sky behind it.",
        FitReasonCode.TooEarly => $"It is begun {Say.Time(reason.By!.Value)} before the first start from which every frame has its light.",
        _ => $"It is begun {Say.Time(reason.By!.Value)} after the last start from which every frame has its light.",
    };

    private static string Moved(FitReason reason) => LightWords.CouldMove(reason.By!.Value) is { } move ? $"; as high as the grid's own edge there it would {move}" : "";

    private static string Strip(FitReason reason) => $"{reason.Strip!.From.Degrees:0.#}° to {reason.Strip.To.Degrees:0.#}°";

    private static string Ground(FitReason reason) => reason.Horizon switch
    {
        { Kind: HorizonKind.Deck } deck => $"the cloud at {deck.SunAzimuth.Degrees:0}°",
        { Kind: HorizonKind.OpenHorizon } open => $"the open horizon at {open.SunAzimuth.Degrees:0}°",
        { Distance: { } distance } ground => $"ground at {ground.SunAzimuth.Degrees:0}°, {Say.Distance(distance.Metres)} off",
        var ground => $"ground at {ground!.SunAzimuth.Degrees:0}°",
    };

    private static string Without(FitReason reason, Clock clock) => reason.EarliestWithout is { } earliest
        ? $"; without those {reason.Strip!.Width.Degrees:0.#}° it can be begun from {clock.Short(earliest)} to {clock.Short(reason.LatestWithout!.Value)}"
        : "";
}
