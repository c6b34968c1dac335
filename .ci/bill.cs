// Writes what the program is made of: sbom.cdx.json (CycloneDX 1.6) and THIRD-PARTY-NOTICES.txt, from the lock file of the command
// line and the packages named in it. Fails where a package names no licence, or one whose text is not in .ci/licences.
//
//     dotnet run .ci/bill.cs -- artifacts                        for the tool package
//     dotnet run .ci/bill.cs -- artifacts/linux-x64 linux-x64    for a single file, with the runtime inside it, when it is published
#:property PublishAot=false
#:property RestorePackagesWithLockFile=false
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Xml.Linq;

var root = Path.GetFullPath(Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? ".ci", ".."));
var (output, system) = (args.Length > 0 ? args[0] : "artifacts", args.Length > 1 ? args[1] : null);
var version = XElement.Load(Path.Combine(root, "Directory.Build.props")).Descendants("Version").Single().Value;
var cli = Path.Combine(root, "src", "Glowcast.Cli");
var locked = LockedPackages().Concat(system is null ? [] : RuntimePacks(system));
var packages = locked.Select(Describe).OrderBy(package => package.Id, StringComparer.OrdinalIgnoreCase).ToList();

Directory.CreateDirectory(output);
File.WriteAllText(Path.Combine(output, "sbom.cdx.json"), Sbom().ToJsonString(new JsonSerializerOptions { WriteIndented = true }));
File.WriteAllText(Path.Combine(output, "THIRD-PARTY-NOTICES.txt"), string.Join("\n\n", Notices()) + "\n");
Console.WriteLine($"{packages.Count} packages: {Path.Combine(output, "sbom.cdx.json")}, {Path.Combine(output, "THIRD-PARTY-NOTICES.txt")}");

IEnumerable<Locked> LockedPackages()
{
    using var file = JsonDocument.Parse(File.ReadAllText(Path.Combine(cli, "packages.lock.json")));
    return [.. from framework in file.RootElement.GetProperty("dependencies").EnumerateObject()
               from package in framework.Value.EnumerateObject()
               where package.Value.GetProperty("type").GetString() != "Project"
               let needs = package.Value.TryGetProperty("dependencies", out var named) ? named.EnumerateObject().Select(need => need.Name).ToList() : []
               select new Locked(package.Name, package.Value.GetProperty("resolved").GetString()!, package.Value.GetProperty("contentHash").GetString()!, needs)];
}

// What is inside a single file stands in the list that is published with it.
IEnumerable<Locked> RuntimePacks(string system)
{
    using var file = JsonDocument.Parse(File.ReadAllText(Path.Combine(cli, "bin", "Release", "net10.0", system, "glowcast.deps.json")));
    return [.. from library in file.RootElement.GetProperty("libraries").EnumerateObject()
               where library.Name.StartsWith("runtimepack.", StringComparison.Ordinal)
               let name = library.Name["runtimepack.".Length..].Split('/')
               let hash = Directory.GetFiles(FolderOf(name[0], name[1]), "*.nupkg.sha512").Single()
               select new Locked(name[0], name[1], File.ReadAllText(hash).Trim(), [])];
}

static string FolderOf(string id, string version)
{
    var cache = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
    return Path.Combine(cache, id.ToLowerInvariant(), version.ToLowerInvariant());
}

static Package Describe(Locked locked)
{
    var folder = FolderOf(locked.Id, locked.Version);
    var metadata = XElement.Load(Directory.GetFiles(folder, "*.nuspec").Single()).Elements().Single(element => element.Name.LocalName == "metadata");
    string? Value(string name) => metadata.Elements().FirstOrDefault(element => element.Name.LocalName == name)?.Value is { Length: > 0 } text ? text : null;
    var licence = metadata.Elements().FirstOrDefault(element => element.Name.LocalName == "license");
    var expression = licence?.Attribute("type")?.Value == "expression" ? licence.Value : null;
    if (licence is null && Value("licenseUrl") is null) throw new InvalidOperationException($"{locked.Id} {locked.Version} names no licence.");
    var texts = Directory.GetFiles(folder).Where(IsLegal).Order(StringComparer.Ordinal).Select(File.ReadAllText).ToList();
    return new Package(locked, expression, Value("licenseUrl"), Value("copyright") ?? Value("authors") ?? "", Value("projectUrl"), texts);

    static bool IsLegal(string path) => Path.GetExtension(path).Equals(".txt", StringComparison.OrdinalIgnoreCase)
        && (path.Contains("licen", StringComparison.OrdinalIgnoreCase) || path.Contains("notice", StringComparison.OrdinalIgnoreCase));
}

JsonObject Sbom() => new()
{
    ["bomFormat"] = "CycloneDX",
    ["specVersion"] = "1.6",
    ["version"] = 1,
    ["metadata"] = new JsonObject
    {
        ["component"] = new JsonObject { ["type"] = "application", ["bom-ref"] = "glowcast", ["name"] = "glowcast", ["version"] = version, ["licenses"] = Licence("MIT") },
    },
    ["components"] = new JsonArray([.. packages.Select(Component), Data("Open Sans", "1.11", "font", "Apache-2.0"), Data("World Magnetic Model", "2025", "coefficients", null)]),
    ["dependencies"] = new JsonArray([
        Needs("glowcast", packages.Select(package => package.Id)), .. packages.Select(package => Needs(package.Id, package.Locked.Needs))]),
};

// The list of one system holds packages of others too; what is not there is needed of nobody.
JsonNode Needs(string id, IEnumerable<string> needs) => new JsonObject
{
    ["ref"] = RefOf(id),
    ["dependsOn"] = new JsonArray([.. needs.Where(need => packages.Exists(package => package.Id == need)).Select(need => (JsonNode)RefOf(need))]),
};

string RefOf(string id) => packages.Find(package => package.Id == id)?.Purl ?? id;

static JsonNode Component(Package package) => new JsonObject
{
    ["type"] = "library",
    ["bom-ref"] = package.Purl,
    ["name"] = package.Id,
    ["version"] = package.Version,
    ["purl"] = package.Purl,
    ["copyright"] = package.Copyright,
    ["hashes"] = new JsonArray(new JsonObject { ["alg"] = "SHA-512", ["content"] = Convert.ToHexStringLower(Convert.FromBase64String(package.Locked.Hash)) }),
    ["licenses"] = package.Expression is { } expression ? Licence(expression)
        : new JsonArray(new JsonObject { ["license"] = new JsonObject { ["name"] = $"licence of {package.Id}", ["url"] = package.LicenceUrl } }),
};

static JsonNode Data(string name, string version, string kind, string? expression) => new JsonObject
{
    ["type"] = "data",
    ["name"] = name,
    ["version"] = version,
    ["description"] = $"{kind} inside Glowcast.Field",
    ["licenses"] = expression is not null ? Licence(expression)
        : new JsonArray(new JsonObject { ["license"] = new JsonObject { ["name"] = "public domain (NOAA/NCEI and British Geological Survey)" } }),
};

static JsonArray Licence(string expression) => new(new JsonObject { ["expression"] = expression });

IEnumerable<string> Notices() =>
[
    $"""
    Glowcast {version} is under the MIT licence. It is made with the packages named here, and holds the font Open Sans (digitized data
    copyright 2010-2011 Google Corporation, Apache-2.0) and the coefficients of the World Magnetic Model 2025 (NOAA/NCEI and the British
    Geological Survey, public domain). ProjNET, which is under the LGPL, is a library of its own, unchanged; whoever wants another version
    of it can build Glowcast with that.
    """,
    .. packages.Select(package => string.Join("\n    ", (IEnumerable<string>)
        [$"{package.Id} {package.Version}", package.Copyright, package.Expression ?? package.LicenceUrl ?? "licence below", .. package.ProjectUrl is { } page ? [page] : Array.Empty<string>()])),
    .. packages.Where(package => package.Expression is not null).GroupBy(package => package.Expression!).OrderBy(alike => alike.Key, StringComparer.Ordinal).Select(alike => Text(alike.Key, LicenceText(alike.Key))),
    .. from package in packages from text in package.Texts group package.Id by text.Trim() into alike select Text(string.Join(", ", alike), alike.Key),
];

string LicenceText(string expression)
{
    var file = Path.Combine(root, ".ci", "licences", $"{expression}.txt");
    return File.Exists(file) ? File.ReadAllText(file) : throw new InvalidOperationException($"{expression} is a licence whose text is not in .ci/licences; see that it allows ours, and put it there.");
}

static string Text(string title, string text) => $"{new string('-', 100)}\n{title}\n\n{text.ReplaceLineEndings("\n").Trim()}";

internal sealed record Locked(string Id, string Version, string Hash, IReadOnlyList<string> Needs);

/// <param name="Texts">Licence and notices as the package brings them.</param>
internal sealed record Package(Locked Locked, string? Expression, string? LicenceUrl, string Copyright, string? ProjectUrl, IReadOnlyList<string> Texts)
{
    public string Id => Locked.Id;

    public string Version => Locked.Version;

    public string Purl => $"pkg:nuget/{Id}@{Version}";
}
