namespace Glowcast.Server.Problems;

/// <summary>Nothing is wrong with the request, but it asks for more than this service gives to one.</summary>
internal sealed class TooMuchException(string message) : Exception(message);

/// <summary>Too many others wait already.</summary>
internal sealed class TooBusyException() : Exception("Too many others wait for this already; try again a little later.")
{
    public const string RetryAfterS = "10";
}
