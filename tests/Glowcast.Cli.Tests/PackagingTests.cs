using System.Diagnostics;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Glowcast.Cli.Tests;

/// <summary>What is handed on, and what it says it is made of.</summary>
public sealed partial class PackagingTests
{
    private static readonly string Root = Checkout.Root;

    [Fact]
    public void Every_package_that_the_program_runs_with_is_in_the_lock_file_that_the_bill_of_materials_is_made_from()
    {
        using var resolved = JsonDocument.Parse(File.ReadAllText(Path.ChangeExtension(typeof(CommandLine).Assembly.Location, ".deps.json")));
        using var locked = JsonDocument.Parse(File.ReadAllText(Path.Combine(Root, "src", "Glowcast.Cli", "packages.lock.json")));
        var billed = locked.RootElement.GetProperty("dependencies").EnumerateObject().SelectMany(framework => framework.Value.EnumerateObject())
            .Where(package => package.Value.GetProperty("type").GetString() != "Project")
            .Select(package => $"{package.Name}/{package.Value.GetProperty("resolved").GetString()}").ToHashSet(StringComparer.OrdinalIgnoreCase);
        var used = resolved.RootElement.GetProperty("libraries").EnumerateObject().Where(library => library.Value.GetProperty("type").GetString() == "package").Select(library => library.Name).ToList();

        Assert.True(used.Count > 20);
        Assert.Empty(used.Except(billed, StringComparer.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task The_version_stands_in_one_place()
    {
        var version = XElement.Load(Path.Combine(Root, "Directory.Build.props")).Descendants("Version").Single().Value;
        Assert.StartsWith(version, (await Outcome.Of("--version")).Out, StringComparison.Ordinal);
        Assert.Empty(
            from file in Directory.EnumerateFiles(Path.Combine(Root, "src"), "*.csproj", SearchOption.AllDirectories)
            where XElement.Load(file).Descendants().Any(element => element.Name.LocalName.EndsWith("Version", StringComparison.Ordinal))
            select file);
    }

    [Fact]
    public void The_container_holds_what_the_release_publishes()
    {
        var container = File.ReadAllText(Path.Combine(Root, "src", "Glowcast.Cli", "Dockerfile"));
        Assert.Matches("(?m)^COPY glowcast ", container);
        // Not as root, and nothing fetched but Debian's own packages.
        Assert.Matches("(?m)^USER glowcast$", container);
        Assert.DoesNotMatch("(?m)^(ADD|RUN.*(curl|wget)) ", container);
        Assert.Contains("docker build -f src/Glowcast.Cli/Dockerfile", Workflow("release"), StringComparison.Ordinal);
    }

    [FactNeeds<Bash>]
    public void Every_step_of_the_workflows_is_a_script_that_bash_can_read()
    {
        var scripts = Steps().Matches(Workflow("ci") + Workflow("release")).Select(step => step.Groups["block"].Success ? step.Groups["block"].Value : step.Groups["line"].Value).ToList();
        Assert.True(scripts.Count > 7);
        foreach (var script in scripts)
        {
            using var bash = Process.Start(new ProcessStartInfo("/bin/bash", ["-n", "-c", Expressions().Replace(script, "word")]) { RedirectStandardError = true })!;
            Assert.True(string.IsNullOrEmpty(bash.StandardError.ReadToEnd()), script);
        }
    }

    private static string Workflow(string name) => File.ReadAllText(Path.Combine(Root, ".github", "workflows", $"{name}.yml"));

    [GeneratedRegex(@"run: (?:\|\n(?<block>(?: {10}.*\n)+)|(?<line>[^|\n]+)\n)")]
    private static partial Regex Steps();

    [GeneratedRegex(@"\$\{\{[^}]*\}\}")]
    private static partial Regex Expressions();
}
