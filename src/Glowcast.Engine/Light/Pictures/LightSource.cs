namespace Glowcast.Engine.Light;

/// <summary>Whose direct light a chart is about.</summary>
public enum LightSource
{
    Sun,
    Moon,
}
