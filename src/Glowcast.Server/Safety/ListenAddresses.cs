using Glowcast.Engine.Measures;

namespace Glowcast.Server.Safety;

/// <summary>Where the service listens.</summary>
/// <param name="IsThisMachineOnly">Otherwise whoever calls must show the token.</param>
internal sealed record ListenAddresses(string[] Urls, bool IsThisMachineOnly)
{
    /// <summary>By these names, and no other, this machine calls itself.</summary>
    public static readonly string[] NamesOfThisMachine = ["localhost", "127.0.0.1", "[::1]"];

    /// <param name="urls">Parted by semicolons.</param>
    /// <exception cref="BadInputException">One is no http address.</exception>
    public static ListenAddresses Read(string urls)
    {
        var faults = new Faults();
        var addresses = urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (addresses.Length == 0) faults.Add("urls", "Is missing; give an address such as http://127.0.0.1:5127.");
        var isThisMachineOnly = true;
        foreach (var address in addresses)
        {
            if (HostOf(address) is { } host) isThisMachineOnly &= NamesOfThisMachine.Contains(host);
            else faults.Add("urls", $"Must be an http address such as http://127.0.0.1:5127; got '{Shortened.To80(address)}'.");
        }
        faults.ThrowIfAny();
        return new ListenAddresses(addresses, isThisMachineOnly);
    }

    // A star or a plus stands for every address of this machine; only the host before the port may be one.
    private static string? HostOf(string address)
    {
        var text = address.Replace("//*:", "//0.0.0.0:", StringComparison.Ordinal).Replace("//+:", "//0.0.0.0:", StringComparison.Ordinal);
        return Uri.TryCreate(text, UriKind.Absolute, out var uri) && uri.Scheme == Uri.UriSchemeHttp && uri.PathAndQuery == "/" && uri.UserInfo.Length == 0
            && (uri.HostNameType is UriHostNameType.IPv4 or UriHostNameType.IPv6 || uri.Host == "localhost")
            ? uri.Host
            : null;
    }
}
