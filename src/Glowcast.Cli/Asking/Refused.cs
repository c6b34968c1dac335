namespace Glowcast.Cli.Asking;

/// <summary>Why the operating system refuses a file, in plain words.</summary>
internal static class Refused
{
    /// <param name="refusal">An <see cref="IOException"/> or <see cref="UnauthorizedAccessException"/>, or what odd names bring.</param>
    /// <param name="right">What would be right, such as "name a file that may be read".</param>
    public static string Because(Exception refusal, string right) => refusal is UnauthorizedAccessException
        ? $"this user has no right to it; {right}."
        : $"{refusal.Message.TrimEnd('.')}; {right}.";
}
