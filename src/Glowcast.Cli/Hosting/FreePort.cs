using System.Net;
using System.Net.Sockets;

namespace Glowcast.Cli.Hosting;

/// <summary>Ports of this machine that nobody listens on.</summary>
internal static class FreePort
{
    private const int MostTries = 20;

    /// <summary>The first free one from here on; 0, which takes any, where many in a row are taken.</summary>
    public static int From(int port) => Enumerable.Range(port, MostTries).FirstOrDefault(IsFree);

    private static bool IsFree(int port)
    {
        try
        {
            using var listener = new TcpListener(IPAddress.Loopback, port);
            listener.Start();
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
