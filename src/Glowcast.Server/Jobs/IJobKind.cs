namespace Glowcast.Server.Jobs;

/// <summary>One kind of long work.</summary>
internal interface IJobKind
{
    string Name { get; }

    /// <summary>Does it; it may be done again after a service that ended in the middle.</summary>
    /// <returns>What it makes, as JSON.</returns>
    Task<byte[]> DoAsync(string request, IProgress<double> progress, CancellationToken cancel);

    /// <summary>Lets go of what was held for it; called once it has ended, done or not.</summary>
    void Release(string request);
}
