namespace Glowcast.Server.Store;

/// <summary>The database is damaged: what can still be read is, and nothing is written.</summary>
internal sealed class DamagedException(Exception? inner = null) : Exception(Words, inner)
{
    public const string Words =
        "The database of this service is damaged. What can still be read is answered, and nothing is written, so that nothing more is lost. Stop the service; then restore a backup (glowcast data restore), or save what can be read into a new data folder (glowcast data salvage).";
}
