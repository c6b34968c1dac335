using System.Net;
using Glowcast.Engine.Measures;

namespace Glowcast.Server.Safety;

/// <summary>Where the service listens.</summary>
/// <param name="Urls">Written anew from what was understood of them, so that the server below cannot understand anything else.</param>
/// <param name="IsThisMachineOnly">Otherwise whoever calls must show the token.</param>
internal sealed record ListenAddresses(string[] Urls, bool IsThisMachineOnly)
{
    /// <summary>By these names, and no other, this machine calls itself.</summary>
    public static readonly string[] NamesOfThisMachine = ["localhost", "127.0.0.1", "[::1]"];

    private const string Everywhere = "*";

    // What may stand in an address of the web, but not in one to listen on.
    private static readonly System.Buffers.SearchValues<char> Beyond = System.Buffers.SearchValues.Create("#?\\@");

    /// <param name="urls">Parted by semicolons.</param>
    /// <exception cref="BadInputException">One is no http address.</exception>
    public static ListenAddresses Read(string urls)
    {
        var faults = new Faults();
        var addresses = urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (addresses.Length == 0) faults.Add("urls", "Is missing; give an address such as http://127.0.0.1:5127.");
        var read = addresses.Select(address => Understood(address, faults)).OfType<(string Host, int Port)>().ToList();
        faults.ThrowIfAny();
        return new ListenAddresses([.. read.Select(place => $"http://{place.Host}:{place.Port}")], read.All(place => NamesOfThisMachine.Contains(place.Host)));
    }

    /// <summary>Whether an address that the server below says it listens on reaches nobody but this machine.</summary>
    public static bool IsOfThisMachine(string bound)
    {
        var host = BindingAddress.Parse(bound).Host;
        return host == "localhost" || (IPAddress.TryParse(host, out var address) && IPAddress.IsLoopback(address));
    }

    private static (string Host, int Port)? Understood(string address, Faults faults)
    {
        // A star or a plus stands for every address of this machine; only the host before the port may be one.
        var (isEverywhere, text) = WithoutStar(address);
        if (Uri.TryCreate(text, UriKind.Absolute, out var uri) && IsBare(uri) && HostOf(uri) is { } host)
            return isEverywhere ? (Everywhere, uri.Port) : WithNumber(host, uri.Port);
        faults.Add("urls", $"Must be an http address such as http://127.0.0.1:5127, with nothing behind the port; got '{Shortened.To80(address)}'.");
        return null;
    }

    private static (bool IsEverywhere, string Text) WithoutStar(string address)
    {
        foreach (var star in (string[])["//*:", "//+:"])
            if (address.IndexOf(star, StringComparison.Ordinal) is >= 0 and var at && at == address.IndexOf("//", StringComparison.Ordinal)) return (true, address.Replace(star, "//0.0.0.0:", StringComparison.Ordinal));
        return (false, address);
    }

    private static bool IsBare(Uri uri) =>
        uri.Scheme == Uri.UriSchemeHttp && uri.PathAndQuery == "/" && uri.Fragment.Length == 0 && uri.UserInfo.Length == 0 && uri.OriginalString.AsSpan().IndexOfAny(Beyond) < 0;

    private static string? HostOf(Uri uri) => uri.HostNameType switch
    {
        UriHostNameType.IPv4 => IPAddress.Parse(uri.Host).ToString(),
        UriHostNameType.IPv6 => $"[{IPAddress.Parse(uri.DnsSafeHost)}]",
        _ => uri.Host == "localhost" ? uri.Host : null,
    };

    // Of the two addresses that localhost stands for each would take a free port of its own.
    private static (string Host, int Port) WithNumber(string host, int port) => host == "localhost" && port == 0 ? ("127.0.0.1", port) : (host, port);
}
