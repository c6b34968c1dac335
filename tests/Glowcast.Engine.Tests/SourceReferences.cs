using System.Text.RegularExpressions;

namespace Glowcast.Engine.Tests;

/// <summary>Which files of a room use types that others of its files declare, read off their text.</summary>
/// <remarks>A file uses a type where the type's name stands as a word: not in a comment or a text, not after a point, and not as the
/// name of a member or parameter, which follows the name of its type (<c>Angle Refraction</c>) or stands before <c>=</c>. Nested types
/// belong to the type that they stand in.</remarks>
internal sealed partial class SourceReferences
{
    private readonly Dictionary<string, HashSet<string>> used;

    /// <param name="files">The text of each file by its name.</param>
    public SourceReferences(IReadOnlyDictionary<string, string> files)
    {
        var code = files.ToDictionary(file => file.Key, file => Texts().Replace(Comments().Replace(file.Value, ""), "\"\""));
        var homes = code.SelectMany(file => Declared().Matches(file.Value).Select(match => (Type: match.Groups["name"].Value, File: file.Key))).ToLookup(home => home.Type, home => home.File);
        used = code.ToDictionary(file => file.Key, file => Names().Matches(file.Value).Where(name => !IsMember(file.Value, name))
            .SelectMany(name => homes[name.Value]).Where(home => home != file.Key).ToHashSet());
    }

    /// <summary>Files that reach one another in both directions: each circle once, its files in order.</summary>
    public IReadOnlyList<string[]> Circles() =>
        [.. used.Keys.Select(file => Reached(file).Where(other => Reached(other).Contains(file)).Order(StringComparer.Ordinal).ToArray())
            .Where(circle => circle.Length > 1).DistinctBy(circle => string.Join(' ', circle)).OrderBy(circle => circle[0], StringComparer.Ordinal)];

    private HashSet<string> Reached(string from)
    {
        var (reached, ahead) = (new HashSet<string>(), new Queue<string>([from]));
        while (ahead.TryDequeue(out var file))
            foreach (var next in used[file].Where(reached.Add)) ahead.Enqueue(next);
        return reached;
    }

    private static bool IsMember(string code, Match name)
    {
        var before = Before().Match(code, 0, name.Index);
        var isNamed = before.Groups["word"] is { Success: true } word ? !Keyword().IsMatch(word.Value) : before.Groups["mark"].Success;
        return isNamed || Assigned().IsMatch(code, name.Index + name.Length);
    }

    [GeneratedRegex(@"//[^\n]*")]
    private static partial Regex Comments();

    [GeneratedRegex(@"""(?:\\.|[^""\\\n])*""")]
    private static partial Regex Texts();

    [GeneratedRegex(@"^(?:[a-z]+ )*(?:(?:class|struct|interface|enum|record) |delegate [^\n(]* )(?<name>[A-Z]\w*)", RegexOptions.Multiline)]
    private static partial Regex Declared();

    [GeneratedRegex(@"(?<![.\w@])[A-Z]\w*")]
    private static partial Regex Names();

    [GeneratedRegex(@"(?:\b(?<word>[A-Za-z_]\w*)|(?<=[\w)\[\]>?])(?<mark>[>?\]])) +\z", RegexOptions.RightToLeft)]
    private static partial Regex Before();

    [GeneratedRegex(@"^(?:new|return|is|as|in|out|ref|case|static|readonly|public|private|internal|protected|const|params|this|override|sealed|abstract|partial|else|await|throw|when|not|or|and|where|class|struct|record|interface|enum|delegate|required|virtual|implicit|explicit|operator|default|yield|unsafe|async|extension|scoped|from|select|let|on|equals)\z")]
    private static partial Regex Keyword();

    [GeneratedRegex(@"\G\s*=[^=>]")]
    private static partial Regex Assigned();
}
