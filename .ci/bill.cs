// Writes what the program is made of: sbom.cdx.json (CycloneDX 1.6) and THIRD-PARTY-NOTICES.txt, from the lock file of the command
// line and the metadata of the packages in it. Fails where a package names no licence.
//
//     dotnet run .ci/bill.cs -- artifacts
#:property PublishAot=false
#:property RestorePackagesWithLockFile=false
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Xml.Linq;

var root = Path.GetFullPath(Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? ".ci", ".."));
var output = args.Length > 0 ? args[0] : "artifacts";
var version = XElement.Load(Path.Combine(root, "Directory.Build.props")).Descendants("Version").Single().Value;
var packages = LockedPackages(Path.Combine(root, "src", "Glowcast.Cli", "packages.lock.json")).Select(Describe).OrderBy(package => package.Id, StringComparer.OrdinalIgnoreCase).ToList();

Directory.CreateDirectory(output);
File.WriteAllText(Path.Combine(output, "sbom.cdx.json"), Sbom().ToJsonString(new JsonSerializerOptions { WriteIndented = true }));
File.WriteAllText(Path.Combine(output, "THIRD-PARTY-NOTICES.txt"), Notices());
Console.WriteLine($"{packages.Count} packages: {Path.Combine(output, "sbom.cdx.json")}, {Path.Combine(output, "THIRD-PARTY-NOTICES.txt")}");

static IEnumerable<(string Id, string Version, string Hash)> LockedPackages(string file)
{
    using var locked = JsonDocument.Parse(File.ReadAllText(file));
    return [.. from framework in locked.RootElement.GetProperty("dependencies").EnumerateObject()
               from package in framework.Value.EnumerateObject()
               where package.Value.GetProperty("type").GetString() != "Project"
               select (package.Name, package.Value.GetProperty("resolved").GetString()!, package.Value.GetProperty("contentHash").GetString()!)];
}

static Package Describe((string Id, string Version, string Hash) locked)
{
    var cache = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
    var folder = Path.Combine(cache, locked.Id.ToLowerInvariant(), locked.Version.ToLowerInvariant());
    var metadata = XElement.Load(Directory.GetFiles(folder, "*.nuspec").Single()).Elements().Single(element => element.Name.LocalName == "metadata");
    string? Value(string name) => metadata.Elements().FirstOrDefault(element => element.Name.LocalName == name)?.Value;
    var licence = metadata.Elements().FirstOrDefault(element => element.Name.LocalName == "license");
    var isExpression = licence?.Attribute("type")?.Value == "expression";
    var file = licence is not null && !isExpression ? File.ReadAllText(Path.Combine(folder, licence.Value.Replace('\\', '/'))) : null;
    if (licence is null && Value("licenseUrl") is null) throw new InvalidOperationException($"{locked.Id} {locked.Version} names no licence.");
    return new Package(
        locked.Id, locked.Version, locked.Hash, isExpression ? licence!.Value : null, file, Value("licenseUrl"), Value("copyright") ?? Value("authors") ?? "", Value("projectUrl"));
}

JsonObject Sbom() => new()
{
    ["bomFormat"] = "CycloneDX",
    ["specVersion"] = "1.6",
    ["version"] = 1,
    ["metadata"] = new JsonObject { ["component"] = new JsonObject { ["type"] = "application", ["name"] = "glowcast", ["version"] = version, ["licenses"] = Licence("MIT") } },
    ["components"] = new JsonArray([.. packages.Select(Component), Data("Open Sans", "1.11", "Apache-2.0", "font"), Data("World Magnetic Model", "2025", null, "data")]),
};

static JsonNode Component(Package package) => new JsonObject
{
    ["type"] = "library",
    ["name"] = package.Id,
    ["version"] = package.Version,
    ["purl"] = $"pkg:nuget/{package.Id}@{package.Version}",
    ["copyright"] = package.Copyright,
    ["hashes"] = new JsonArray(new JsonObject { ["alg"] = "SHA-512", ["content"] = Convert.ToHexStringLower(Convert.FromBase64String(package.Hash)) }),
    ["licenses"] = package.Expression is { } expression ? Licence(expression)
        : new JsonArray(new JsonObject { ["license"] = new JsonObject { ["name"] = $"licence of {package.Id}", ["url"] = package.LicenceUrl } }),
};

static JsonNode Data(string name, string version, string? licence, string kind)
{
    var component = new JsonObject { ["type"] = "data", ["name"] = name, ["version"] = version, ["description"] = $"{kind} inside Glowcast.Field" };
    component["licenses"] = licence is null ? new JsonArray(new JsonObject { ["license"] = new JsonObject { ["name"] = "public domain (NOAA/NCEI and British Geological Survey)" } }) : Licence(licence);
    return component;
}

static JsonArray Licence(string expression) => new(new JsonObject { ["expression"] = expression });

string Notices() => string.Join("\n", (IEnumerable<string>)[
    $"Glowcast {version} is under the MIT licence. It is made with the following packages, and holds the font Open Sans (digitized data",
    "copyright 2010-2011 Google Corporation, Apache-2.0) and the coefficients of the World Magnetic Model 2025 (NOAA/NCEI and the British",
    "Geological Survey, public domain). Self-contained files also hold the .NET runtime (MIT, .NET Foundation and contributors).",
    .. packages.Select(package => $"\n{package.Id} {package.Version}\n    {package.Copyright}\n    {package.Expression ?? package.LicenceUrl}\n    {package.ProjectUrl}{(package.LicenceText is { } text ? $"\n\n{text.Trim()}" : "")}"), ""]);

internal sealed record Package(string Id, string Version, string Hash, string? Expression, string? LicenceText, string? LicenceUrl, string Copyright, string? ProjectUrl);
