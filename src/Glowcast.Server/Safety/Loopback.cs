using Glowcast.Engine.Measures;

namespace Glowcast.Server.Safety;

/// <summary>This machine and no other: where the service listens, and by which names it may be called.</summary>
/// <remarks>Calling it by another name is how a page elsewhere would reach a local service (DNS rebinding).</remarks>
internal static class Loopback
{
    public static readonly string[] HostNames = ["localhost", "127.0.0.1", "[::1]"];

    /// <param name="urls">Parted by semicolons.</param>
    /// <exception cref="BadInputException">One is no http address, or not of this machine.</exception>
    public static string[] Addresses(string urls)
    {
        var faults = new Faults();
        var addresses = urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (addresses.Length == 0) faults.Add("urls", "Is missing; give an address such as http://127.0.0.1:5127.");
        foreach (var address in addresses)
        {
            if (!Uri.TryCreate(address, UriKind.Absolute, out var uri) || uri.Scheme != Uri.UriSchemeHttp || uri.PathAndQuery != "/")
                faults.Add("urls", $"Must be an http address such as http://127.0.0.1:5127; got '{address}'.");
            else if (!HostNames.Contains(uri.Host))
                faults.Add("urls", $"Must be an address of this machine, with one of the hosts {string.Join(", ", HostNames)}: nobody is asked who they are; got '{address}'.");
        }
        faults.ThrowIfAny();
        return addresses;
    }
}
