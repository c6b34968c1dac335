namespace Glowcast.Server.Answers;

/// <summary>What every answer from weather models must say.</summary>
public static class WeatherWords
{
    public const string Caution = "Models miss much low cloud: that the model shows none does not mean that there is none. Local bulletins and your own eyes go first.";
}
