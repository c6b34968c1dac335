using Glowcast.Engine.Light;

namespace Glowcast.Field.Words;

/// <summary>What the light does, in words.</summary>
internal static class LightWords
{
    public static string Because(WindowEdgeCause cause) => cause switch
    {
        WindowEdgeCause.RidgeLit => "the ridge is lit",
        WindowEdgeCause.RidgeShaded => "the ridge loses the sun",
        WindowEdgeCause.ValleyLit => "the sun reaches the valley",
        WindowEdgeCause.ValleyShaded => "the valley is in shade",
        _ => "the day begins or ends",
    };

    public static string Of(LightDirection direction) => direction switch
    {
        LightDirection.Front => "front light, from behind the camera",
        LightDirection.Side => "side light",
        _ => "back light, towards the camera",
    };

    public static string Of(BlackPointVerdict verdict) => verdict switch
    {
        BlackPointVerdict.Has => "there is one",
        BlackPointVerdict.Weak => "weak",
        _ => "none",
    };
}
