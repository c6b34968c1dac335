namespace Glowcast.Engine.Tests;

/// <summary>Files of a room use one another in one direction, so that each can be read after those that it stands on.</summary>
public class FileCircleTests
{
    // What is left to be undone. A circle that is new fails the test, and so does one named here that is gone.
    private static readonly string[] Known =
    [
        "ClearanceTrace CrossingSearch SunOverGround TimingUncertainty",
        "ExpectedTime TakeOdds",
        "FitReasons JudgedSets SetFit",
        "GlancePairs MarkerLikeness PatternShares SessionFacts",
        "GribFile GribScan",
        "GribPacking GroupedValues",
        "GribProduct Parameter",
        "Season SeasonFilter",
        "SeasonDay SeasonScore",
    ];

    [Fact]
    public void No_files_use_one_another_in_a_circle() => Assert.Equal(
        Known,
        from project in (string[])["Glowcast.Engine", "Glowcast.Field"]
        from room in Directory.EnumerateDirectories(Path.Combine(FolderMapTests.Root, "src", project))
        where Path.GetFileName(room) is not ("bin" or "obj")
        from circle in new SourceReferences(TextOf(room)).Circles()
        let files = string.Join(' ', circle)
        orderby files
        select files);

    [Theory]
    [InlineData("class A { B b; }", "class B;", "")]
    [InlineData("class A { B b; }", "class B { void M() => A.Start(); }", "A B")]
    [InlineData("class A { B b; }", "class B { List<A> all; }", "A B")]
    [InlineData("class A { B b; }", "class B { bool Is(object o) => o is A { Count: 1 }; }", "A B")]
    [InlineData("class A { B b; }", "class B { Angle A { get; } = Angle.Zero; }", "")]
    [InlineData("class A { B b; }", "class B { double? A; Of(List<int> A) => new C { A = 1 }; }", "")]
    [InlineData("class A { B b; }", "class B; // made by A, says \"A\"", "")]
    [InlineData("class A { B b; }", "class B { string Text => \"A\"; int M(C c) => c.A; }", "")]
    [InlineData("class A { B b; }", "delegate int B(A a);", "A B")]
    public void A_circle_is_told_from_what_only_looks_like_one(string first, string second, string circle) => Assert.Equal(
        circle.Length > 0 ? [circle] : [], new SourceReferences(new Dictionary<string, string> { ["A"] = first, ["B"] = second }).Circles().Select(files => string.Join(' ', files)));

    [Fact]
    public void A_circle_of_three_is_one_circle() => Assert.Equal(
        ["A", "B", "C"],
        Assert.Single(new SourceReferences(new Dictionary<string, string> { ["A"] = "class A { B b; }", ["B"] = "class B { C c; }", ["C"] = "class C { A a; }", ["D"] = "class D { A a; }" }).Circles()));

    private static Dictionary<string, string> TextOf(string room) =>
        Directory.EnumerateFiles(room, "*.cs", SearchOption.AllDirectories).ToDictionary(file => Path.GetFileNameWithoutExtension(file), File.ReadAllText);
}
