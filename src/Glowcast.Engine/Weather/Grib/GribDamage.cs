namespace Glowcast.Engine.Weather;

/// <summary>What is wrong with a GRIB message, found while it is read; never leaves the reader.</summary>
/// <param name="message">A sentence with what is wrong and, where there is one, what would be right.</param>
internal sealed class GribDamage(string message) : Exception(message);
