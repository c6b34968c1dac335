using System.Net;
using Glowcast.Engine.Measures;
using Glowcast.Server.Safety;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Glowcast.Server.Tests.Safety;

/// <summary>An address that is taken for this machine's own must be one for the server below too.</summary>
public class ListenAddressTests
{
    private static readonly string[] Schemes = ["http://", "HTTP://", "http:/", "https://", "http:\\\\", "http:////", "", "http://http://"];
    private static readonly string[] Hosts =
    [
        "127.0.0.1", "localhost", "[::1]", "0.0.0.0", "[::]", "*", "+", "LOCALHOST", "127.1", "2130706433", "0x7f.1", "127.0.0.1.", "localhost.", "::1", "[::ffff:127.0.0.1]", "[::1%1]",
        "127.0.0.2", "example", "127.0.0.1#", "127.0.0.1?", "a@127.0.0.1", "127.0.0.1@0.0.0.0", "127.0.0.1\\", "127.0.0.1/", "[::1", "١٢٧.0.0.1", "loc\u00adalhost", "127.0.0.1\t", "", "unix:/x", "localhost#", "*#", "127.0.0.1:80:",
    ];

    private static readonly string[] Ports = [":0", ":5210", "", ":", ":65536", ":-1", ":+5", "#:5210", "?:5210", "/:5210", ":5210#", ":5210/#a", ":5210?a", ":5210/", ":5210//", ":5210/a", ":05210", ": 5210", "\\:5210"];

    public static TheoryData<string> Real => ["http://127.0.0.1:0", "http://localhost:0", "HTTP://LOCALHOST:0/", "http://[::1]:0", "http://127.1:0", "http://127.0.0.1:0;http://localhost:0", "http://127.0.0.1:0/"];

    [Fact]
    public void What_is_taken_for_this_machine_only_is_so_for_the_server_below()
    {
        var (accepted, ours) = (0, 0);
        foreach (var scheme in Schemes)
            foreach (var host in Hosts)
                foreach (var port in Ports)
                    Judge(scheme + host + port);
        var random = new Random(18);
        for (var i = 0; i < 20_000; i++) Judge(Mutated(random, Schemes[random.Next(2)] + Hosts[random.Next(Hosts.Length)] + Ports[random.Next(Ports.Length)]));
        Assert.True(ours > 20 && accepted > ours, $"{accepted} accepted, {ours} ours");

        void Judge(string address)
        {
            if (Accepted(address) is not { } listen) return;
            accepted++;
            if (!listen.IsThisMachineOnly) return;
            ours++;
            // As the server below takes them apart.
            Assert.All(listen.Urls, url => Assert.True(ListenAddresses.IsOfThisMachine(url), $"{address} became {url}"));
            Assert.All(listen.Urls, url => Assert.Equal(url, BindingAddress.Parse(url).ToString().TrimEnd('/')));
        }
    }

    [Theory]
    [MemberData(nameof(Real))]
    public async Task What_the_server_below_binds_is_what_was_judged(string urls)
    {
        await using var app = ServerHost.Build(new ServerOptions { Urls = urls });
        try
        {
            await app.StartAsync(TestContext.Current.CancellationToken);
        }
        catch (IOException) when (urls.Contains("::1", StringComparison.Ordinal))
        {
            Assert.Skip("this machine has no IPv6");
        }
        Assert.All(app.Urls, url => Assert.True(IPAddress.IsLoopback(IPAddress.Parse(new Uri(url).DnsSafeHost.Replace("localhost", "127.0.0.1", StringComparison.Ordinal))), url));
    }

    [Theory]
    [InlineData("http://127.0.0.1#:5210")]
    [InlineData("http://127.0.0.1:5210#")]
    [InlineData("http://127.0.0.1?:5210")]
    [InlineData("http://127.0.0.1\\:5210")]
    [InlineData("http://a@127.0.0.1:5210")]
    public void More_than_a_host_and_a_port_is_refused(string address) =>
        Assert.Equal("urls", Assert.Single(Assert.Throws<BadInputException>(() => ListenAddresses.Read(address)).Faults).Field);

    [Theory]
    [InlineData("http://0.0.0.0:0", false)]
    [InlineData("http://*:0", false)]
    [InlineData("http://127.0.0.1:0", true)]
    public async Task A_service_without_a_token_does_not_start_where_others_reach_it(string bound, bool starts)
    {
        // As if the address had been understood as this machine's own.
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().UseUrls(bound);
        builder.Services.AddSingleton(new ListenAddresses([bound], IsThisMachineOnly: true));
        builder.Services.AddHostedService<BoundAddresses>();
        await using var app = builder.Build();
        if (starts) await app.StartAsync(TestContext.Current.CancellationToken);
        else Assert.Contains("nobody is asked for a token", (await Assert.ThrowsAsync<BadInputException>(() => app.StartAsync(TestContext.Current.CancellationToken))).Message, StringComparison.Ordinal);
    }

    private static ListenAddresses? Accepted(string address)
    {
        try
        {
            return ListenAddresses.Read(address);
        }
        catch (BadInputException)
        {
            return null;
        }
    }

    private static string Mutated(Random random, string address)
    {
        const string inserted = "#?/\\@:;.*+[]%0 \t%\0é127";
        var at = random.Next(address.Length + 1);
        return random.Next(3) switch
        {
            0 => address.Insert(at, inserted[random.Next(inserted.Length)].ToString()),
            1 when at < address.Length => address.Remove(at, 1),
            _ => address.Insert(at, address[..random.Next(address.Length)]),
        };
    }
}
