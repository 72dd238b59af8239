import { createHash } from 'node:crypto';

/** A configuration profile with one certificate to trust, for iPadOS, iOS and macOS. It holds nothing else and is not signed. */
export function profileOf(name: string, der: Uint8Array): string {
  const payload = uuidOf(der, 'certificate');
  const whole = uuidOf(der, 'profile');
  const lines = (
    Buffer.from(der)
      .toString('base64')
      .match(/.{1,64}/g) ?? []
  ).join('\n');
  const text = escaped(name);
  return `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd">
<plist version="1.0">
<dict>
  <key>PayloadContent</key>
  <array>
    <dict>
      <key>PayloadCertificateFileName</key><string>sthene-authority.crt</string>
      <key>PayloadContent</key>
      <data>
${lines}
      </data>
      <key>PayloadDisplayName</key><string>${text}</string>
      <key>PayloadIdentifier</key><string>org.sthene.authority.${payload}</string>
      <key>PayloadType</key><string>com.apple.security.root</string>
      <key>PayloadUUID</key><string>${payload}</string>
      <key>PayloadVersion</key><integer>1</integer>
    </dict>
  </array>
  <key>PayloadDescription</key><string>Lets this device trust one Sthene station in the local network, and nothing outside it.</string>
  <key>PayloadDisplayName</key><string>${text}</string>
  <key>PayloadIdentifier</key><string>org.sthene.authority</string>
  <key>PayloadType</key><string>Configuration</string>
  <key>PayloadUUID</key><string>${whole}</string>
  <key>PayloadVersion</key><integer>1</integer>
</dict>
</plist>
`;
}

/** The same certificate always gives the same profile, so that installing it twice replaces it. */
function uuidOf(der: Uint8Array, part: string): string {
  const hex = createHash('sha256').update(part).update(der).digest('hex').toUpperCase();
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-5${hex.slice(13, 16)}-A${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}

const escaped = (text: string) => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
