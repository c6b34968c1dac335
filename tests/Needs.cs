using System.Runtime.CompilerServices;

namespace Glowcast.Tests;

/// <summary>Something that a machine may lack: a program, or files beside the checkout.</summary>
internal interface INeed
{
    static abstract bool IsPresent { get; }

    /// <summary>Why tests that need it are skipped.</summary>
    static abstract string Missing { get; }
}

/// <summary>A fact that is skipped, with the reason, where what it needs is missing.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class FactNeedsAttribute<T> : FactAttribute
    where T : INeed
{
    public FactNeedsAttribute([CallerFilePath] string? file = null, [CallerLineNumber] int line = -1)
        : base(file, line) => (SkipUnless, SkipType, Skip) = (nameof(INeed.IsPresent), typeof(T), T.Missing);
}

/// <summary>A theory that is skipped, with the reason, where what it needs is missing.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class TheoryNeedsAttribute<T> : TheoryAttribute
    where T : INeed
{
    public TheoryNeedsAttribute([CallerFilePath] string? file = null, [CallerLineNumber] int line = -1)
        : base(file, line) => (SkipUnless, SkipType, Skip) = (nameof(INeed.IsPresent), typeof(T), T.Missing);
}
